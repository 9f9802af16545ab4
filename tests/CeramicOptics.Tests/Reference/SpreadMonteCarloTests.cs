using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Tests.Unit;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Maps with light that spreads sideways compared with photon packets: a dark disc below ceramic, at distances from its
/// middle, within 0.01 in R and twice the standard error of the counting.
/// </summary>
/// <remarks>Nothing depends on wavelength, so that R is Y of the map. The mesh is turned in space.</remarks>
public class SpreadMonteCarloTests
{
    private const double Allowed = 0.01, DarkBody = 0.1, LightBody = 0.7, CementMm = 0.05;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);

    /// <summary>Reduced scattering, anisotropy, index, thickness, radius.</summary>
    [Theory]
    [InlineData(1.5, 0.77, 1.5, 0.5, 1.5)]
    [InlineData(3.0, 0.5, 1.5, 1.0, 0.5)]
    [InlineData(9.0, 0.5, 2.15, 0.5, 3.0)]
    [InlineData(4.0, 0.5, 2.15, 1.5, 1.5)]
    public void A_dark_disc_below_ceramic(
        double reduced, double anisotropy, double index, double mm, double radiusMm) =>
        Compare(reduced, anisotropy, index, mm, radiusMm, [0, 0.7 * radiusMm, radiusMm + 0.15, radiusMm + 1], 20_000);

#if LONG_RUN
    /// <summary>Drawn ceramics, the rim seen closely; about a minute each.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void Drawn_discs(int seed)
    {
        Random random = new(seed);
        bool isZirconia = seed % 2 == 0;
        double reduced = isZirconia ? 4 * Math.Pow(4, random.NextDouble()) : 1.5 * Math.Pow(4, random.NextDouble());
        double mm = 0.5 + random.NextDouble(), radius = 0.5 * Math.Pow(6, random.NextDouble());
        double[] beyond = [-0.2, -0.1, 0.1, 0.2, 0.4, 0.8, 1.6, 2.5];
        Compare(
            reduced, random.NextDouble() * 0.8, isZirconia ? 2.15 : 1.5, mm, radius,
            [0, 0.5 * radius, .. beyond.Select(more => radius + more)], 200_000);
    }
#endif

    private static void Compare(
        double reduced, double anisotropy, double index, double mm, double radiusMm, double[] distances, int photons)
    {
        LateralMonteCarlo counter = new(
            [Layer(0.03, reduced, anisotropy, mm, index), Layer(0.02, 0.8, anisotropy, CementMm, 1.52)], 1.54,
            distance => distance < radiusMm ? DarkBody : LightBody, 7);
        Substrate light = Body("light", LightBody), dark = Body("dark", DarkBody);
        Restoration crown = new(
            [new Zone("body", light, mm, MaskingReference.SelfBacked)],
            new Ceramic("made up", 1, Of(0.03, reduced, anisotropy, index)),
            new Layer(Of(0.02, 0.8, anisotropy, 1.52), CementMm), ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.4, 1.6),
        };
        SpreadMap map = SpreadMap.Compile(crown, [light, dark]);
        PlaneMesh plane = new(2 * (radiusMm + 4), 2 * (radiusMm + 4), 0.05, turned: 0.4);
        SpreadField field = map.Over(
            plane.Mesh, plane.Each(_ => mm), plane.Each(point => (byte)(point.Length() < radiusMm ? 1 : 0)));
        Lab[] colors = new Lab[plane.Flat.Count];
        field.Colors(colors);
        Xyz white = crown.Viewing.Colorimeters[0].White;
        foreach (double distance in distances)
        {
            // The mean of points around the middle, as the disc on a square lattice has no sharp radius.
            IEnumerable<double> around = Enumerable.Range(0, plane.Flat.Count)
                .OrderBy(i => Math.Abs(plane.Flat[i].Length() - distance)).Take(distance == 0 ? 1 : 8)
                .Select(i => colors[i].ToXyz(white).Y / 100);
            Estimate counted = counter.At(photons, 8, distance);
            Assert.InRange(counted.StandardError, 1e-6, 0.004);
            Assert.Equal(counted.Value, around.Average(), Allowed + (2 * counted.StandardError));
        }
    }

    private static TransportLayer Layer(
        double absorption, double reduced, double anisotropy, double mm, double index) =>
        new(absorption, reduced / (1 - anisotropy), anisotropy, mm, index);

    private static Substrate Body(string name, double reflectance) =>
        Substrate.FromInternalReflectance(name, ReflectanceSpectrum.Uniform(Grid, reflectance), 1.54);

    // K and S that stand for these constants: K = 2 μa, S = (3 μs' - μa)/4.
    private static Material Of(double absorption, double reduced, double anisotropy, double index) => new(
        "layer", new TransportModel(16, anisotropy), AbsorptionSpectrum.Uniform(Grid, 2 * absorption),
        ScatteringSpectrum.Uniform(Grid, ((3 * reduced) - absorption) / 4), index);
}
