using MathNet.Numerics;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// How a round spot on the body shows through a stack that is lit everywhere, at distances from its middle.
/// </summary>
/// <remarks>
/// The body has reflectance g within radius s and g0 outside. The light F that falls on it inside the spot follows F =
/// F0 + (g - g0) H F, F0 = Down(0) / (1 - g0 Return(0)), with H the operator that multiplies by Return / (1 - g0
/// Return) at each frequency; what is seen is R0 + (g - g0) times F spread by Up / (1 - g0 Return). F is a series of
/// P_n(1 - 2 r²/s²), whose Hankel transform is s J_2n+1(k s) / k, by Galerkin's method.
/// </remarks>
internal sealed class SpotBelow
{
    private const int NodesPerPanel = 8, FirstTerms = 4, Azimuths = 32;

    // Beyond this many radians over the smallest length nothing is left: what leaves the body is spread by at least the
    // way through the stack.
    private const double LastWave = 60;

    private readonly double[][] _exchange;
    private readonly double[][] _seen;
    private readonly int _terms;
    private readonly double _radiusMm;

    /// <param name="radiusMm">s, 0.5 to 50 mm.</param>
    /// <param name="distancesMm">Distances from the middle at which the surface is seen, 0 to 50 mm.</param>
    /// <param name="cancellation">Stops the work.</param>
    public SpotBelow(
        double radiusMm, IReadOnlyList<double> distancesMm, CancellationToken cancellation = default)
    {
        Guard.InRange(radiusMm, LateralFrequencies.SmallestRadiusMm, LateralFrequencies.LargestRadiusMm, "mm");
        DistancesMm = Guard.Copy(distancesMm, minimumCount: 1);
        _radiusMm = radiusMm;
        _terms = FirstTerms + (int)Math.Ceiling(radiusMm);
        _exchange = New(_terms * _terms);
        _seen = New(_terms * distancesMm.Count);
        foreach (double distanceMm in DistancesMm)
        {
            Guard.InRange(distanceMm, 0, LateralFrequencies.LargestRadiusMm, "mm");
        }

        double farthest = Math.Max(radiusMm, distancesMm.Max()), panel = Math.PI / (2 * farthest);
        int panels = (int)Math.Ceiling(LastWave / Math.Min(radiusMm, 1) / panel);
        GaussLegendreRule rule = new(0, panel, NodesPerPanel);
        double[] bessel = new double[_terms], polynomials = new double[LateralFrequencies.Count];
        for (int i = 0; i < panels * NodesPerPanel; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            double k = (i / NodesPerPanel * panel) + rule.GetAbscissa(i % NodesPerPanel);
            double weight = rule.GetWeight(i % NodesPerPanel);
            Array.Clear(polynomials, 0, polynomials.Length);
            LateralFrequencies.AddPolynomials(k, weight, polynomials);
            for (int n = 0; n < _terms; n++)
            {
                bessel[n] = SpecialFunctions.BesselJ((2 * n) + 1, k * radiusMm);
            }

            for (int n = 0; n < _terms; n++)
            {
                for (int m = 0; m < _terms; m++)
                {
                    Add(_exchange[(n * _terms) + m], bessel[n] * bessel[m] / k, polynomials);
                }
            }

            for (int r = 0; r < distancesMm.Count; r++)
            {
                double there = radiusMm * SpecialFunctions.BesselJ(0, k * distancesMm[r]);
                for (int n = 0; n < _terms; n++)
                {
                    Add(_seen[(r * _terms) + n], bessel[n] * there, polynomials);
                }
            }
        }

        double[][] New(int count) => [.. Enumerable.Range(0, count).Select(_ => new double[LateralFrequencies.Count])];
    }

    /// <summary>Distances from the middle of the spot, mm.</summary>
    public IReadOnlyList<double> DistancesMm { get; }

    /// <summary>Reflectance factors at the distances.</summary>
    /// <param name="responses">Of the stack at <see cref="LateralFrequencies.PerMm"/>.</param>
    /// <param name="spot">g, reflectance of the body inside the spot, 0 to 1.</param>
    /// <param name="around">g0, reflectance of the body outside, 0 to 1.</param>
    /// <param name="shiftMm">
    /// How far sideways the detector looks where it sees the body, mm; all azimuths count.
    /// </param>
    public double[] Reflectance(IReadOnlyList<LateralResponse> responses, double spot, double around, double shiftMm)
    {
        int last = responses.Count - 1;
        double difference = spot - around;
        double[] returned = [.. responses.Select(r => r.Return / (1 - (around * r.Return)))];
        double[] seen = [.. responses.Select(r => r.Up / (1 - (around * r.Return)))];
        double local = returned[last], straight = seen[last];
        Matrix<double> matrix = Matrix<double>.Build.Dense(_terms, _terms, (n, m) =>
        {
            double sum = n == m ? (1 - (difference * local)) / (2 * ((2 * n) + 1)) : 0;
            for (int j = 0; j < last; j++)
            {
                sum -= difference * (returned[j] - local) * _exchange[(n * _terms) + m][j];
            }

            return sum;
        });
        Vector<double> right = Vector<double>.Build.Dense(_terms);
        right[0] = responses[0].Down / (1 - (around * responses[0].Return)) / 2;
        Vector<double> light = matrix.Solve(right);
        double[] values = new double[_seen.Length / _terms];
        for (int r = 0; r < values.Length; r++)
        {
            double sum = straight * Inside(light, DistancesMm[r], shiftMm);
            for (int n = 0; n < _terms; n++)
            {
                for (int j = 0; j < last; j++)
                {
                    sum += light[n] * (seen[j] - straight) * _seen[(r * _terms) + n][j];
                }
            }

            values[r] = responses[0].Over(around) + (difference * sum);
        }

        return values;
    }

    // Mean of the light on a circle around a distance.
    private double Inside(Vector<double> light, double distanceMm, double shiftMm)
    {
        double sum = 0;
        for (int i = 0; i < Azimuths; i++)
        {
            double along = distanceMm + (shiftMm * Math.Cos(Math.PI * (i + 0.5) / Azimuths));
            double across = shiftMm * Math.Sin(Math.PI * (i + 0.5) / Azimuths);
            sum += Inside(light, Math.Sqrt((along * along) + (across * across)) / _radiusMm) / Azimuths;
        }

        return sum;
    }

    // The series at a distance in radii of the spot; 0 outside.
    private static double Inside(Vector<double> light, double distance)
    {
        double x = 1 - (2 * distance * distance), before = 0, polynomial = 1, sum = 0;
        for (int n = 0; n < light.Count && distance <= 1; n++)
        {
            sum += light[n] * polynomial;
            (before, polynomial) = (polynomial, ((((2 * n) + 1) * x * polynomial) - (n * before)) / (n + 1));
        }

        return sum;
    }

    private static void Add(double[] sums, double factor, double[] polynomials)
    {
        for (int j = 0; j < sums.Length; j++)
        {
            sums[j] += factor * polynomials[j];
        }
    }
}
