using System.Numerics;
using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>
/// How much colours beside a straight rim between two stumps change from the assumed anisotropy of scattering to either
/// end of its range.
/// </summary>
/// <remarks>
/// A stump that fills half of the plane shows, at a distance x inside its rim, by 1/2 + ∫ Up(k)/Up(0) sin(k x)/(π k)
/// dk. Taken at one wavelength in the middle, at the available thickness of each zone and under the first light.
/// </remarks>
internal static class SpreadAnisotropy
{
    private const double StepPerMm = 0.05, LastPerMm = 40;

    private static readonly double[] DistancesMm = [0.1, 0.2, 0.4, 0.8, 1.6, 3.2];

    /// <summary>The largest change over zones, pairs of stumps and distances, by the criterion's formula.</summary>
    public static double LargestChange(
        Restoration restoration, IReadOnlyList<Substrate> stumps, SpreadColors colors, int wavelength)
    {
        double largest = 0;
        foreach (double mm in restoration.Zones.Select(zone => zone.AvailableMm).Distinct())
        {
            LayerStack stack = restoration.StackOver(stumps[0], mm);
            double[][] seen = Array.ConvertAll(
                (double[])[UnknownAnisotropy.Usual, UnknownAnisotropy.Least, UnknownAnisotropy.Most],
                anisotropy => ShareInside(stack, restoration.Viewing.Geometry, anisotropy, wavelength));
            for (int own = 0; own < stumps.Count; own++)
            {
                for (int other = 0; other < stumps.Count; other++)
                {
                    for (int x = 0; x < DistancesMm.Length && own != other; x++)
                    {
                        Lab[] at = Array.ConvertAll(seen, shares => ColorAt(colors, mm, own, other, shares[x]));
                        largest = Math.Max(largest, Math.Max(
                            restoration.Criterion.Difference(at[0], at[1]),
                            restoration.Criterion.Difference(at[0], at[2])));
                    }
                }
            }
        }

        return largest;
    }

    private static Lab ColorAt(SpreadColors colors, double mm, int own, int other, double share)
    {
        Span<Vector4> shares = stackalloc Vector4[1 + Math.Max(own, other)];
        shares.Clear();
        (shares[own], shares[other]) = (new Vector4((float)share), new Vector4((float)(1 - share)));
        return colors.LabAt(mm, 0, own, shares);
    }

    private static double[] ShareInside(
        LayerStack stack, MeasurementGeometry geometry, double anisotropy, int wavelength)
    {
        double[] up = Array.ConvertAll(
            LateralReflectance.Responses(
                stack, UnknownAnisotropy.SamplerAt(stack, geometry, anisotropy), wavelength),
            response => response.Up);
        double whole = up[0], local = whole > 0 ? up[up.Length - 1] / whole : 1;
        return Array.ConvertAll(DistancesMm, mm =>
        {
            double sum = (1 + local) / 2;
            for (double k = StepPerMm / 2; k < LastPerMm && whole > 0; k += StepPerMm)
            {
                double kept = (LateralFrequencies.Interpolate(up, k) / whole) - local;
                sum += StepPerMm * kept * Math.Sin(k * mm) / (Math.PI * k);
            }

            return Math.Min(1, Math.Max(0, sum));
        });
    }
}
