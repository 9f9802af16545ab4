namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Crowns of photons predicted from discs of photons that were read through a window, with scattering of which the
/// library knows nothing (docs/lateral.md has the figures of the long run).
/// </summary>
public class BlindLaboratoryTests
{
    private readonly Xunit.Abstractions.ITestOutputHelper _output;

    public BlindLaboratoryTests(Xunit.Abstractions.ITestOutputHelper output) => _output = output;

    /// <summary>A part with few photons: counting alone moves these colours by about 0.4.</summary>
    [Fact]
    public void A_crown_from_a_disc_read_through_a_window_is_as_good_as_from_a_large_reading()
    {
        BlindLaboratory laboratory = new(6_000) { Grid = WavelengthGrid.Range(400, 700, 100) };
        foreach (int which in (int[])[1, 3])
        {
            foreach (BlindLaboratory.CrownError error in laboratory.Errors(BlindLaboratory.Ceramics[which], [1.0]))
            {
                _output.WriteLine($"{error}");
                Assert.InRange(error.Corrected, 0, 1.5);
                Assert.InRange(error.Uncorrected, 3, 12);
            }
        }
    }

#if LONG_RUN
    /// <summary>Six ceramics, three thicknesses, two stumps; about a quarter of an hour.</summary>
    [Fact]
    public void Crowns_of_six_ceramics_are_predicted_within_the_stated_differences()
    {
        BlindLaboratory laboratory = new(150_000);
        BlindLaboratory.CrownError[] errors = [.. BlindLaboratory.Ceramics.SelectMany(
            ceramic => laboratory.Errors(ceramic, [0.6, 1.0, 1.5]))];
        double[] sorted = [.. errors.Select(error => error.Corrected).Order()];
        foreach (BlindLaboratory.CrownError error in errors)
        {
            _output.WriteLine($"{error}");
        }

        Assert.InRange(sorted.Average(), 0, 0.3);
        Assert.InRange(sorted[(int)(0.95 * (sorted.Length - 1))], 0, 0.8);
        Assert.InRange(errors.Average(error => error.Uncorrected), 4, 6);
    }
#endif
}
