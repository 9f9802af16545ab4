#if NET
using System.Runtime.Intrinsics;

namespace CeramicOptics.Layers;

/// <summary>The measured reflectance of a sweep as (n0 + n1 u) / (d0 + d1 u), u = exp(-2 γ t): one exponential and one division a wavelength.</summary>
/// <remarks>
/// Layer, cover and surface each map a ratio N / D linearly (<see cref="StackKernel"/>), so all that does not vary is multiplied out once. Agrees with
/// the scalar definition within 1e-10; wavelengths where the layer hardly absorbs are left to that.
/// </remarks>
internal sealed class SweepKernel
{
    private readonly double[] _n0, _n1, _d0, _d1, _decay;
    private readonly int _count;

    public SweepKernel(ReadOnlySpan<double> absorption, ReadOnlySpan<double> scattering, double[] backing, LayerOptics[] cover, SurfaceCorrection[] surface)
    {
        _count = backing.Length;
        int run = (_count + 7) / 8 * 8;
        (_n0, _n1, _d0, _d1, _decay) = (new double[run], new double[run], new double[run], new double[run], new double[run]);
        _d0.AsSpan().Fill(1);
        List<int> delicate = [];
        for (int i = 0; i < _count; i++)
        {
            double infinite = TwoFlux.InfiniteReflectance(absorption[i], scattering[i]);
            if (1 - infinite < StackKernel.DelicateGap)
            {
                delicate.Add(i);
            }

            double near = 1 - (infinite * backing[i]), far = backing[i] - infinite;
            (double Specular, double Through, double Internal) terms = surface[i].Terms;
            LayerOptics above = cover[i];
            (_n0[i], _d0[i]) = Through(terms, Through(above, (infinite * near, near)));
            (_n1[i], _d1[i]) = Through(terms, Through(above, (far, infinite * far)));
            _decay[i] = -2 * TwoFlux.DecayRate(absorption[i], scattering[i]);
        }

        Delicate = [.. delicate];
    }

    /// <summary>Wavelengths that are left to the scalar definition.</summary>
    public int[] Delicate { get; }

    public void Reflectance(double thicknessMm, Span<double> destination)
    {
        Span<double> last = stackalloc double[8];
        for (int i = 0; i < _count; i += 8)
        {
            Vector512<double> u = Vector512.Exp(Vector512.Create(_decay, i) * thicknessMm);
            Vector512<double> r = (Vector512.Create(_n0, i) + (u * Vector512.Create(_n1, i))) / (Vector512.Create(_d0, i) + (u * Vector512.Create(_d1, i)));
            if (i + 8 <= _count)
            {
                r.CopyTo(destination.Slice(i));
            }
            else
            {
                r.CopyTo(last);
                last.Slice(0, _count - i).CopyTo(destination.Slice(i));
            }
        }
    }

    private static (double N, double D) Through(LayerOptics element, (double N, double D) below) =>
        Through((element.ReflectanceFromAbove, element.TransmittanceDown * element.TransmittanceUp, element.ReflectanceFromBelow), below);

    private static (double N, double D) Through((double Above, double Through, double Below) element, (double N, double D) below)
    {
        double divisor = below.D - (element.Below * below.N);
        return ((element.Above * divisor) + (element.Through * below.N), divisor);
    }
}
#endif
