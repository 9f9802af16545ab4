using CeramicOptics.Characterization;

namespace CeramicOptics.Tests.Unit;

public class InstrumentCalibrationTests
{
    private static readonly WavelengthGrid Grid = new(400, 100, 2);

    [Fact]
    public void The_standards_read_what_they_are_and_the_scale_is_linear()
    {
        InstrumentCalibration calibration = new(new ReflectanceSpectrum(Grid, [0.98, 0.96]), [5000, 8000], [100, 200]);
        Assert.Equal([0.98, 0.96], calibration.ToReflectance([5000, 8000]).Values.ToArray());
        Assert.Equal([0.0, 0.0], calibration.ToReflectance([100, 200]).Values.ToArray());
        Assert.Equal([0.49, 0.48], calibration.ToReflectance([2550, 4100]).Values.ToArray());
    }

    [Fact]
    public void A_white_that_is_not_above_black_is_refused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => new InstrumentCalibration(ReflectanceSpectrum.Uniform(Grid, 0.98), [5000, 150], [100, 200]));
        Assert.Equal(
            "At 500 nm the white standard reads 150 and the black 200; white must be above black.", error.Message);
    }

    [Fact]
    public void Readings_on_another_grid_are_refused()
    {
        ReflectanceSpectrum white = ReflectanceSpectrum.Uniform(Grid, 0.98);
        Assert.Throws<ArgumentException>(() => new InstrumentCalibration(white, [5000, 8000, 9000], [100, 200, 300]));
        Assert.Throws<ArgumentException>(() => new InstrumentCalibration(white, [5000], [100, 200]));
        Assert.Throws<ArgumentException>(() => new InstrumentCalibration(white, [5000, 8000], [100]));
        Assert.Throws<ArgumentException>(
            () => new InstrumentCalibration(white, [5000, 8000], [100, 200]).ToReflectance([2550]));
    }
}
