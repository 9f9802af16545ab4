using CeramicOptics.Layers.Transport;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Measured and published slabs; each file of tests/reference/published names its source and what its numbers are
/// worth.
/// </summary>
public class PublishedMeasurementTests
{
    /// <summary>
    /// Computed by another author's adding-doubling program and confirmed by Monte Carlo to 5e-4: 30 slabs of index 1.4
    /// between glass, and half-spaces. Tolerance: what Monte Carlo leaves open.
    /// </summary>
    [Fact]
    public void Slabs_between_slides_of_glass()
    {
        TransportLayer slide = new(0, 0, 0, 1, 1.5);
        Assert.All(Rows("slabs_between_glass.csv", 30), row =>
        {
            (double albedo, bool isHalfSpace) = (Number(row[0]), row[1] == "inf");
            double depth = isHalfSpace ? 1000 : Number(row[1]);
            TransportResult result = RadiativeTransfer.Solve(
                [slide, new TransportLayer(depth * (1 - albedo), depth * albedo, 0, 1, 1.4), slide], 1, 1);
            Assert.Equal(Number(row[2]), result.NormalReflectance, 3e-4);
            Assert.Equal(isHalfSpace ? 0 : Number(row[3]), result.NormalTransmittance, 3e-4);
        });
    }

    /// <summary>
    /// Tables of van de Hulst and of Özışık and Shouman, of one and two layers, as another program reproduces them with
    /// 8 streams (hence 4e-4), and by doubling with 32 streams (hence 5e-5; the file has both).
    /// </summary>
    [Fact]
    public void Slabs_without_boundaries() => Assert.All(Rows("slabs_index_matched.csv", 4), row =>
    {
        TransportLayer Layer(int at) => new(
            Number(row[at]) * (1 - Number(row[at + 1])), Number(row[at]) * Number(row[at + 1]), 0, 1, 1);
        TransportResult result = RadiativeTransfer.Solve([Layer(2), Layer(4)], 1, 1);
        Assert.Equal(Number(row[6]), result.DiffuseReflectance, 4e-4);
        Assert.Equal(Number(row[7]), result.DiffuseTransmittance, 4e-4);
        Assert.Equal(Number(row[8]), result.DiffuseReflectance, 5e-5);
        Assert.Equal(Number(row[9]), result.DiffuseTransmittance, 5e-5);
    });

    /// <summary>
    /// A measured slab of silicone, 2.65 mm, with constants that another program found from the same readings, by a
    /// model of its own with Monte Carlo. R within 0.003, the uncertainty of the sphere; T above the reading by what
    /// leaves past the port, at most 0.012. Beyond 1000 nm, where it scatters less, R too loses light past the port.
    /// </summary>
    [Fact]
    public void A_measured_slab_of_silicone() => Assert.All(
        Rows("phantom_silicone.csv", 111)
            .Where(row => Number(row[0]) is >= 450 and <= 1000 && Number(row[0]) % 50 == 0), row =>
    {
        TransportResult result = RadiativeTransfer.Solve(
            [new TransportLayer(Number(row[4]), Number(row[5]) / 0.1, 0.9, 2.65, Number(row[3]))], 1, 1, 1e-4);
        Assert.Equal(Number(row[1]), result.NormalReflectance, 0.003);
        Assert.InRange(result.NormalTransmittance - Number(row[2]), 0, 0.012);
    });

    private static List<string[]> Rows(string file, int count)
    {
        List<string[]> rows = [.. File.ReadLines(PathOf("tests", "reference", "published", file))
            .Where(line => !line.StartsWith('#')).Skip(1).Select(line => line.Split(','))];
        Assert.Equal(count, rows.Count);
        return rows;
    }
}
