using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
#if LONG_RUN
using Xunit.Abstractions;
#endif

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Radiative transfer at lateral frequencies compared with photon packets of the same constants and phase function,
/// within four standard errors of the counting and 0.001 for few directions and frequencies.
/// </summary>
public class LateralMonteCarloTests
#if LONG_RUN
    (ITestOutputHelper output)
#endif
{
    private const double Numerical = 0.001;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 500, 100);

    /// <summary>Constants, reduced scattering, anisotropy, thickness, index, body.</summary>
    [Theory]
    [InlineData(0.05, 1.2, 0.77, 1.5, 1.5, 0.9)]
    [InlineData(0.10, 2.5, 0.5, 0.5, 1.5, 0.0)]
    [InlineData(0.02, 4.0, 0.0, 1.0, 1.5, 0.9)]
    [InlineData(0.02, 2.0, 0.77, 0.8, 2.15, 0.9)]
    [InlineData(0.05, 9.0, 0.5, 0.6, 2.15, 0.0)]
    public void A_spot_seen_through_a_window(
        double absorption, double reduced, double anisotropy, double mm, double index, double body)
    {
        LateralMonteCarlo photons = new(
            [Layer(absorption, reduced, anisotropy, mm, index), Film(CouplingMedium.Glycerine)], 1.5, _ => body, 1);
        RadialShares shares = photons.Pencil(80_000, 8);
        LayerStack stack = new(
            [new Layer(Of(absorption, reduced, anisotropy, index), mm)], Body(body, 1.5), CouplingMedium.Glycerine);
        foreach (
            (double spot, double window) in ((double, double)[])[(0.5, 0.5), (1, 1), (2, 2), (1, 3), (4, 2), (5, 5)])
        {
            AssertWithin(shares.Reading(spot, window), Read(stack, CircularReading.OnWideSpecimen(spot, window)));
        }
    }

    [Fact]
    public void A_crown_of_four_layers()
    {
        LateralMonteCarlo photons = new(
            [
                Layer(0.01, 0.3, 0.5, 0.1, 1.5), Layer(0.05, 3, 0.5, 0.5, 1.5),
                Layer(0.05, 8, 0.5, 0.5, 2.15), Layer(0.05, 1.5, 0.5, 0.1, 1.52),
            ],
            1.54, _ => 0.3, 2);
        LayerStack stack = new(
            [
                new Layer(Of(0.01, 0.3, 0.5, 1.5), 0.1), new Layer(Of(0.05, 3, 0.5, 1.5), 0.5),
                new Layer(Of(0.05, 8, 0.5, 2.15), 0.5), new Layer(Of(0.05, 1.5, 0.5, 1.52), 0.1),
            ],
            Body(0.3, 1.54));
        AssertWithin(photons.Pencil(60_000, 8).Reading(2, 2), Read(stack, CircularReading.OnWideSpecimen(2, 2)));
    }

    /// <summary>
    /// Lit along the normal, seen under 45 degrees: photons that leave near 45 degrees, as a radiance factor.
    /// </summary>
    [Fact]
    public void Lit_at_0_and_seen_at_45_degrees()
    {
        double at45 = Math.Cos(Math.PI / 4);
        LateralMonteCarlo photons = new(
            [Layer(0.05, 2.5, 0.5, 1, 1.5), Film(CouplingMedium.Glycerine)], 1.5, _ => 0.9, 3);
        RadialShares shares = photons.Pencil(200_000, 0, (at45 - 0.1, at45 + 0.1));
        LayerStack stack = new([new Layer(Of(0.05, 2.5, 0.5, 1.5), 1)], Body(0.9, 1.5), CouplingMedium.Glycerine);
        AssertWithin(
            shares.Reading(2, 3), Read(stack, CircularReading.OnWideSpecimen(2, 3), MeasurementGeometry.ZeroFortyFive));
    }

    /// <summary>
    /// Sides that absorb, mirror, or are polished with air around. The side is treated by diffusion, so 0.002 is
    /// allowed; where window and disc are nearly equal and the material clear, it is worse (docs/lateral.md).
    /// </summary>
    [Theory]
    [InlineData(nameof(LateralMonteCarlo.Rim.Absorbing), 4, 3)]
    [InlineData(nameof(LateralMonteCarlo.Rim.Mirror), 4, 3)]
    [InlineData(nameof(LateralMonteCarlo.Rim.Polished), 4, 3)]
    public void A_disc_with_a_side(string rim, double disc, double window)
    {
        LateralMonteCarlo.Rim side = Enum.Parse<LateralMonteCarlo.Rim>(rim);
        LateralMonteCarlo photons = new(
            [Layer(0.01, 3, 0.5, 1.2, 1.5), Film(CouplingMedium.Glycerine)], 1.5, _ => 0.9, 4)
        {
            DiscRadiusMm = disc,
            Side = side,
        };
        DiscSide taken = side switch
        {
            LateralMonteCarlo.Rim.Absorbing => DiscSide.Absorbing,
            LateralMonteCarlo.Rim.Mirror => DiscSide.Reflecting,
            _ => DiscSide.PolishedInAir,
        };
        LayerStack stack = new([new Layer(Of(0.01, 3, 0.5, 1.5), 1.2)], Body(0.9, 1.5), CouplingMedium.Glycerine);
        double read = stack.Reflectance(
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.OnDisc(window, window, disc, taken))[0];
        Estimate counted = photons.Spot(60_000, 8, window, window);
        Assert.Equal(counted.Value, read, 0.002 + (4 * counted.StandardError));
        Assert.InRange(counted.StandardError, 0, 0.002);
    }

    /// <summary>
    /// How much a dark spot on a light body, under 1 mm, takes from what is seen: in the middle, inside, outside near
    /// and far. What is seen over the light body alone is judged by the tests of plane stacks.
    /// </summary>
    [Theory]
    [InlineData(3.0, 1.5, 0.0, 1.5)]
    [InlineData(1.5, 1.5, 0.77, 0.5)]
    [InlineData(6.0, 2.15, 0.5, 1.0)]
    public void A_dark_spot_shows_around_it(double reduced, double index, double anisotropy, double spotMm)
    {
        CouplingMedium cement = new("cement", 1.52);
        double[] distances = [0, 0.8 * spotMm, 1.2 * spotMm, spotMm + 0.6, spotMm + 2];
        LateralMonteCarlo photons = new(
            [Layer(0.03, reduced, anisotropy, 1, index), Film(cement)], 1.54, _ => 0.8, 5)
        {
            Other = r => r < spotMm ? 0.1 / 0.8 : 1,
        };
        LayerStack stack = new([new Layer(Of(0.03, reduced, anisotropy, index), 1)], Body(0.8, 1.54), cement);
        IReadOnlyList<ReflectanceSpectrum> seen = LateralReflectance.AboveSpot(
            stack, Body(0.1, 1.54), MeasurementGeometry.DiffuseSpecularIncluded, new SpotBelow(spotMm, distances));
        double light = stack.Reflectance()[0];
        for (int i = 0; i < distances.Length; i++)
        {
            AssertWithin(photons.Lowered(8_000, 8, distances[i]), light - seen[i][0]);
        }
    }

#if LONG_RUN
    /// <summary>
    /// As in the table of docs/lateral.md: ten drawn specimens, ten readings of each; about a minute a run.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(30)]
    [InlineData(40)]
    [InlineData(50)]
    [InlineData(60)]
    [InlineData(70)]
    public void Drawn_specimens_are_within_the_stated_errors(int first)
    {
        double[] radii = [1, 2, 3, 5];
        List<double> errors = [];
        for (int i = first; i < first + 10; i++)
        {
            Random random = new(i);
            double reduced = Math.Pow(16, random.NextDouble()), anisotropy = ((double[])[0, 0.5, 0.77, 0.9])[i % 4];
            anisotropy = anisotropy == 0.9 && reduced > 6 ? 0.7 : anisotropy;
            double absorption = 0.2 * Math.Pow(random.NextDouble(), 2), mm = 0.3 + (1.7 * random.NextDouble());
            double index = i / 4 % 2 == 0 ? 1.5 : 2.15, body = i / 2 % 3 == 0 ? 0 : 0.9;
            LateralMonteCarlo photons = new(
                [Layer(absorption, reduced, anisotropy, mm, index), Film(CouplingMedium.Glycerine)],
                1.5,
                _ => body,
                (ulong)i);
            RadialShares shares = photons.Pencil(300_000, 8);
            LayerStack stack = new(
                [new Layer(Of(absorption, reduced, anisotropy, index), mm)], Body(body, 1.5), CouplingMedium.Glycerine);
            foreach (double spot in radii)
            {
                foreach (double window in radii.Where(radius => radius >= spot))
                {
                    double read = Read(stack, CircularReading.OnWideSpecimen(spot, window));
                    errors.Add(Math.Abs(read - shares.Reading(spot, window).Value));
                }
            }
        }

        errors.Sort();
        output.WriteLine(
            $"median {errors[errors.Count / 2]:0.0000}, 95 % {errors[(int)(0.95 * errors.Count)]:0.0000}, "
                + $"largest {errors[^1]:0.0000}");
        Assert.InRange(errors[(int)(0.95 * errors.Count)], 0, 0.003);
        Assert.InRange(errors[^1], 0, 0.006);
    }
#endif

    private static double Read(
        LayerStack stack,
        CircularReading reading,
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded) =>
        LateralReflectance.Read(stack, geometry, reading)[0];

    private static TransportLayer Layer(
        double absorption, double reduced, double anisotropy, double mm, double index) =>
        new(absorption, reduced / (1 - anisotropy), anisotropy, mm, index);

    private static TransportLayer Film(CouplingMedium medium) => new(0, 0, 0, 1e-6, medium.RefractiveIndex.Constant);

    private static Substrate Body(double reflectance, double index) =>
        Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, reflectance), index);

    // K and S that stand for these constants: K = 2 μa, S = (3 μs' - μa)/4.
    private static Material Of(double absorption, double reduced, double anisotropy, double index) => new(
        "layer", new TransportModel(48, anisotropy), AbsorptionSpectrum.Uniform(Grid, 2 * absorption),
        ScatteringSpectrum.Uniform(Grid, ((3 * reduced) - absorption) / 4), index);

    private static void AssertWithin(Estimate counted, double predicted)
    {
        Assert.InRange(counted.StandardError, 1e-6, 0.004);
        Assert.Equal(counted.Value, predicted, Numerical + (4 * counted.StandardError));
    }
}
