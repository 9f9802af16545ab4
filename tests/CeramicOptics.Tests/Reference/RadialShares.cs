namespace CeramicOptics.Tests.Reference;

/// <summary>Where light comes out around a pencil, in rings of 0.02 mm.</summary>
internal sealed class RadialShares(int batches, int perBatch)
{
    private const double RingMm = 0.02;
    private const int Rings = 1500;

    private readonly double[,] _sums = new double[batches, Rings + 1];
    private readonly double[] _local = new double[batches];

    public void Add(int batch, double distanceMm, double weight)
    {
        if (distanceMm == 0)
        {
            _local[batch] += weight;
        }
        else
        {
            _sums[batch, Math.Min(Rings, (int)(distanceMm / RingMm))] += weight;
        }
    }

    /// <summary>All light.</summary>
    public Estimate Total() => Weighted(_ => 1);

    /// <summary>
    /// Reading with a uniform spot and a window around it, relative to a white that loses nothing: the chance that
    /// two points at this distance lie one in the spot and one in the window is the overlap of two circles.
    /// </summary>
    public Estimate Reading(double spotMm, double windowMm) =>
        Weighted(distance =>
            Overlap(spotMm, windowMm, distance) / (Math.PI * Math.Pow(Math.Min(spotMm, windowMm), 2)));

    private Estimate Weighted(Func<double, double> weight)
    {
        IEnumerable<int> rings = Enumerable.Range(0, Rings);
        double[] weights = [.. rings.Select(ring => weight((ring + 0.5) * RingMm)), weight(2 * Rings * RingMm)];
        double local = weight(0);
        double Of(int batch) =>
            (local * _local[batch]) + weights.Select((value, ring) => value * _sums[batch, ring]).Sum();
        return Estimate.From([.. Enumerable.Range(0, batches).Select(batch => Of(batch) / perBatch)]);
    }

    private static double Overlap(double a, double b, double d)
    {
        if (d >= a + b)
        {
            return 0;
        }

        if (d <= Math.Abs(a - b))
        {
            return Math.PI * Math.Min(a, b) * Math.Min(a, b);
        }

        double inA = Math.Acos(((d * d) + (a * a) - (b * b)) / (2 * d * a));
        double inB = Math.Acos(((d * d) + (b * b) - (a * a)) / (2 * d * b));
        return (a * a * (inA - (Math.Sin(2 * inA) / 2))) + (b * b * (inB - (Math.Sin(2 * inB) / 2)));
    }
}
