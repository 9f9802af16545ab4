using CeramicOptics.Spectra;
#if NET
using System.Runtime.Intrinsics;
#endif

namespace CeramicOptics.Layers;

/// <summary>A stack made ready to evaluate its spectrum for many thicknesses of all its layers, and for a shifted stump.</summary>
/// <remarks>
/// Every element acts on the ratio N / D of the reflectance below it: a boundary as N' = Ra (D - Rb N) + T N, D' = D - Rb N, a layer, with
/// R∞ and u = exp(-2 γ t), as N' = R∞ (D - R∞ N) + u (N - R∞ D), D' = (D - R∞ N) + u R∞ (N - R∞ D). One exponential a layer and one division in
/// all. Where a layer hardly absorbs, so that R∞ nears 1 and these differences lose digits, <see cref="TwoFlux"/> is used instead. Agrees
/// with <see cref="LayerStack.Reflectance"/> within 1e-10. Immutable; K and S scaled by a common factor are the same as t scaled by it.
/// </remarks>
internal sealed class StackKernel
{
    // Below this 1 - R∞ the fast form would be off by more than 1e-11.
    internal const double DelicateGap = 1e-5;

    private readonly int _layers, _count;
    private readonly Material[] _materials;

    // Wavelengths side by side, each run padded to whole vectors; one run a layer, and for boundaries one below each layer.
    private readonly int _run;
    private readonly double[] _decay, _infinite, _above, _through, _below, _filmAbove, _filmThrough, _filmBelow, _body, _surfaceAbove, _surfaceThrough, _surfaceBelow;
    private readonly int[] _delicate;

    public StackKernel(LayerStack stack, MeasurementGeometry geometry, BoundaryMemo boundaries)
    {
        Grid = stack.Grid;
        (_layers, _count) = (stack.Layers.Count, stack.Grid.Count);
        _run = (_count + 7) / 8 * 8;
        _materials = [.. stack.Layers.Select(layer => layer.Material)];
        (_decay, _infinite) = (new double[_layers * _run], new double[_layers * _run]);
        (_above, _through, _below) = (new double[_layers * _run], new double[_layers * _run], new double[_layers * _run]);
        (_filmAbove, _filmThrough, _filmBelow, _body) = (new double[_run], new double[_run], new double[_run], new double[_run]);
        (_surfaceAbove, _surfaceThrough, _surfaceBelow) = (new double[_run], new double[_run], new double[_run]);
        List<int> delicate = [];
        for (int i = 0; i < _count; i++)
        {
            bool isDelicate = false;
            for (int j = 0; j < _layers; j++)
            {
                double k = _materials[j].Absorption[i], s = _materials[j].Scattering[i];
                _decay[(j * _run) + i] = -2 * TwoFlux.DecayRate(k, s);
                _infinite[(j * _run) + i] = TwoFlux.InfiniteReflectance(k, s);
                isDelicate |= 1 - _infinite[(j * _run) + i] < DelicateGap;
                if (j < _layers - 1)
                {
                    Set(_above, _through, _below, (j * _run) + i, boundaries.Diffuse(IndexOf(j, i), IndexOf(j + 1, i)));
                }
            }

            (LayerOptics first, LayerOptics second, _body[i]) = stack.Substrate.BelowMedium(IndexOf(_layers - 1, i), stack.Coupling, Grid[i], i, boundaries);
            Set(_above, _through, _below, ((_layers - 1) * _run) + i, first);
            Set(_filmAbove, _filmThrough, _filmBelow, i, second);
            (_surfaceAbove[i], _surfaceThrough[i], _surfaceBelow[i]) = boundaries.Surface(geometry, IndexOf(0, i)).Terms;
            if (isDelicate)
            {
                delicate.Add(i);
            }
        }

        _delicate = [.. delicate];
    }

    public WavelengthGrid Grid { get; }

    /// <summary>Reflectance factor with the given thicknesses, and with the stump's internal reflectance moved and kept in [0, 1].</summary>
    public void Reflectance(ReadOnlySpan<double> thicknessesMm, double stumpShift, Span<double> destination)
    {
#if NET
        Span<double> last = stackalloc double[8];
        for (int i = 0; i < _count; i += 8)
        {
            Vector512<double> n = Vector512.Min(Vector512.Max(Load(_body, i) + Vector512.Create(stumpShift), Vector512<double>.Zero), Vector512<double>.One), d = Vector512<double>.One;
            (n, d) = Through(Load(_filmAbove, i), Load(_filmThrough, i), Load(_filmBelow, i), n, d);
            for (int j = _layers - 1; j >= 0; j--)
            {
                int at = (j * _run) + i;
                (n, d) = Through(Load(_above, at), Load(_through, at), Load(_below, at), n, d);
                Vector512<double> r = Load(_infinite, at), u = Vector512.Exp(Load(_decay, at) * thicknessesMm[j]);
                Vector512<double> near = d - (r * n), far = u * (n - (r * d));
                (n, d) = ((r * near) + far, near + (r * far));
            }

            (n, d) = Through(Load(_surfaceAbove, i), Load(_surfaceThrough, i), Load(_surfaceBelow, i), n, d);
            if (i + 8 <= _count)
            {
                (n / d).CopyTo(destination.Slice(i));
            }
            else
            {
                (n / d).CopyTo(last);
                last.Slice(0, _count - i).CopyTo(destination.Slice(i));
            }
        }

        foreach (int i in _delicate)
        {
            destination[i] = ReflectanceAt(i, thicknessesMm, stumpShift);
        }
#else
        for (int i = 0; i < _count; i++)
        {
            destination[i] = ReflectanceAt(i, thicknessesMm, stumpShift);
        }
#endif
    }

    /// <summary>The same at one wavelength, by the scalar definition.</summary>
    public double ReflectanceAt(int i, ReadOnlySpan<double> thicknessesMm, double stumpShift)
    {
        double r = OnBacking(_filmAbove[i], _filmThrough[i], _filmBelow[i], Math.Min(Math.Max(_body[i] + stumpShift, 0), 1));
        for (int j = _layers - 1; j >= 0; j--)
        {
            int at = (j * _run) + i;
            r = OnBacking(_above[at], _through[at], _below[at], r);
            r = TwoFlux.ReflectanceUnchecked(_materials[j].Absorption[i], _materials[j].Scattering[i], thicknessesMm[j], r);
        }

        return OnBacking(_surfaceAbove[i], _surfaceThrough[i], _surfaceBelow[i], r);
    }

    private double IndexOf(int layer, int wavelength) => _materials[layer].RefractiveIndex.At(Grid[wavelength]);

    private static void Set(double[] above, double[] through, double[] below, int at, LayerOptics element) =>
        (above[at], through[at], below[at]) = (element.ReflectanceFromAbove, element.TransmittanceDown * element.TransmittanceUp, element.ReflectanceFromBelow);

    private static double OnBacking(double above, double through, double below, double r) => above + (through * r / (1 - (below * r)));

#if NET
    private static Vector512<double> Load(double[] values, int at) => Vector512.Create(values, at);

    private static (Vector512<double> N, Vector512<double> D) Through(Vector512<double> above, Vector512<double> through, Vector512<double> below, Vector512<double> n, Vector512<double> d)
    {
        Vector512<double> divisor = d - (below * n);
        return ((above * divisor) + (through * n), divisor);
    }
#endif
}
