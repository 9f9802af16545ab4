using System.Collections.Concurrent;
using System.Numerics;
using System.Runtime.InteropServices;
using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>
/// A <see cref="LayerStack"/> compiled for any thicknesses of one or two of its layers and any substrate of the same
/// refractive index.
/// </summary>
/// <remarks>
/// At each wavelength the reflectance over a Lambertian body of internal reflectance g is R = A + B g / (1 - C g) in
/// both models, with A, B and C smooth in the thickness; they are sums of Chebyshev polynomials in its logarithm, of a
/// degree that is doubled until their last coefficients bound the error by 1e-5. <see cref="ErrorBound"/> tells what
/// was reached. Immutable and safe to share.
/// </remarks>
public sealed class StackResponse
{
    /// <summary>Error of a reflectance that the degree is raised for.</summary>
    internal const double WantedError = 1e-5;

    internal const int LastDegree = 192, LastDegreeOfTwo = 48;

    internal const int Functions = 4;

    // By node (of the second thickness, then of the first), then function, then wavelength; coefficients likewise.
    private readonly double[] _values;
    private readonly PaddedCoefficients _coefficients;
    private readonly IOpticalModel _model;
    private readonly ConcurrentDictionary<int, double[]> _infinite = new();

    private StackResponse(
        LayerStack stack, IOpticalModel model, MeasurementGeometry geometry, IReadOnlyList<VariableThickness> varied,
        Chebyshev[] axes, double[] values, double[] coefficients, double bound)
    {
        (Stack, _model, Geometry, Varied, Axes, ErrorBound) = (stack, model, geometry, varied, axes, bound);
        Nodes = axes.Aggregate(1, (count, axis) => count * axis.Count);
        _values = values;
        _coefficients = new PaddedCoefficients(coefficients, Grid.Count);
    }

    /// <summary>The stack that was compiled.</summary>
    internal LayerStack Stack { get; }

    /// <summary>Geometry of all readings.</summary>
    internal MeasurementGeometry Geometry { get; }

    /// <summary>What varies, one or two thicknesses.</summary>
    internal IReadOnlyList<VariableThickness> Varied { get; }

    /// <summary>Wavelengths of all spectra.</summary>
    internal WavelengthGrid Grid => Stack.Grid;

    /// <summary>
    /// Bound on the error of a reflectance against direct evaluation of the same model, from the decay of the
    /// coefficients; rounding included.
    /// </summary>
    public double ErrorBound { get; }

    internal Chebyshev[] Axes { get; }

    /// <summary>Number of nodes of all axes together.</summary>
    internal int Nodes { get; }

    /// <summary>Reflectance factor at one thickness of each kind that varies.</summary>
    /// <param name="substrate">The substrate; null for that of the stack.</param>
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order given to Compile.</param>
    /// <exception cref="ArgumentException">
    /// Not as many thicknesses as vary, or a substrate of another grid or refractive index.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public ReflectanceSpectrum Reflectance(Substrate? substrate, params double[] thicknessesMm)
    {
        double[] values = new double[Grid.Count];
        Reflectance(Guard.NotNull(thicknessesMm), substrate ?? Stack.Substrate, values);
        return new ReflectanceSpectrum(Grid, values);
    }

    /// <summary>The same into the caller's memory; allocates nothing.</summary>
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order given to Compile.</param>
    /// <param name="substrate">The substrate.</param>
    /// <param name="destination">Receives one reflectance factor for each wavelength.</param>
    /// <exception cref="ArgumentException">
    /// Not as many thicknesses as vary, a length that is not the grid's, or a substrate of another grid or refractive
    /// index.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public void Reflectance(ReadOnlySpan<double> thicknessesMm, Substrate substrate, Span<double> destination)
    {
        RequireServes(substrate);
        RequireLength(destination);
        Span<double> factors = stackalloc double[Nodes];
        Polynomials(thicknessesMm, factors);
        Span<Vector<double>> sums = stackalloc Vector<double>[3 * _coefficients.PerFunction];
        _coefficients.Sum(factors, 0, sums);
        int vectors = _coefficients.PerFunction;
        for (int v = 0; v < vectors; v++)
        {
            int at = v * Vector<double>.Count;
            Vector<double> g = substrate.InternalReflectancesFrom(at);
            PaddedCoefficients.Put(Over(sums[v], sums[v + vectors], sums[v + (2 * vectors)], g), destination, at);
        }
    }

    /// <summary>
    /// Share of the instrument's light that reaches the substrate; light that the substrate returns is not counted
    /// again.
    /// </summary>
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order given to Compile.</param>
    /// <exception cref="ArgumentException">Not as many thicknesses as vary.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public TransmittanceSpectrum Transmittance(params double[] thicknessesMm)
    {
        Span<double> factors = stackalloc double[Nodes];
        Polynomials(Guard.NotNull(thicknessesMm), factors);
        double[] values = new double[Grid.Count];
        Span<Vector<double>> sums = stackalloc Vector<double>[_coefficients.PerFunction];
        _coefficients.Sum(factors, 3, sums);
        for (int v = 0; v < sums.Length; v++)
        {
            Vector<double> share = Vector.Min(Vector<double>.One, Vector.Max(Vector<double>.Zero, sums[v]));
            PaddedCoefficients.Put(share, values, v * Vector<double>.Count);
        }

        return new TransmittanceSpectrum(Grid, values);
    }

    internal static StackResponse Compile(
        LayerStack stack, MeasurementGeometry geometry, IReadOnlyList<VariableThickness> varied,
        CancellationToken cancellation, IOpticalModel? by = null, int? fixedDegree = null)
    {
        IReadOnlyList<VariableThickness> what = Guard.Copy(varied, minimumCount: 1, nameof(varied));
        CheckParts(stack, what);
        IOpticalModel model = by ?? stack.Model;
        StackSampler sampler = model.SamplerFor(stack, Guard.Defined(geometry));
        int lastDegree = what.Count == 1 ? LastDegree : LastDegreeOfTwo;
        StackSamples samples = new(stack, what, sampler);
        for (int degree = fixedDegree ?? sampler.FirstDegree; ; degree *= 2)
        {
            Chebyshev[] axes = [.. what.Select(one => new Chebyshev(one.Range, degree))];
            double[] values = samples.At(axes, cancellation);
            double[] coefficients = ResponseCoefficients.Coefficients(
                axes, values, Functions * stack.Grid.Count, cancellation);
            double bound = ResponseCoefficients.BoundOf(axes, values, coefficients, stack.Grid.Count, cancellation);
            if (bound <= WantedError || 2 * degree > lastDegree || fixedDegree is not null)
            {
                return new StackResponse(stack, model, geometry, what, axes, values, coefficients, bound);
            }
        }
    }

    /// <summary>Reflectance at every node over a substrate: by node, then wavelength.</summary>
    internal double[] AtNodes(Substrate substrate)
    {
        RequireServes(substrate);
        int n = Grid.Count;
        double[] values = new double[Nodes * n];
        for (int run = 0; run < Nodes; run++)
        {
            ReadOnlySpan<double> functions = _values.AsSpan(run * Functions * n, 3 * n);
            for (int i = 0; i < n; i++)
            {
                Vector<double> one = Over(
                    new(functions[i]), new(functions[n + i]), new(functions[(2 * n) + i]),
                    new(substrate.InternalReflectanceAt(i)));
                values[(run * n) + i] = one[0];
            }
        }

        return values;
    }

    /// <summary>
    /// Reading with one layer infinitely thick at every node of what else varies: by node, then wavelength.
    /// </summary>
    internal double[] InfiniteAtNodes(int layer) => _infinite.GetOrAdd(layer, InfiniteReadings);

    private double[] InfiniteReadings(int layer)
    {
        int n = Grid.Count;
        StackSampler sampler = _model.SamplerFor(Stack, Geometry);
        double[] values = new double[Nodes * n], layersMm = [.. Stack.Layers.Select(item => item.ThicknessMm)];
        bool isConstant = IsInfiniteConstant(layer);
        for (int node = 0; node < Nodes; node++)
        {
            if (isConstant && node > 0)
            {
                values.AsSpan(0, n).CopyTo(values.AsSpan(node * n));
                continue;
            }

            StackSamples.SetNode(Varied, Axes, node, layersMm);
            for (int i = 0; i < n; i++)
            {
                values[(node * n) + i] = Math.Max(0, sampler.InfiniteAt(i, layer, layersMm));
            }
        }

        return values;
    }

    /// <summary>True when the reading with this layer infinitely thick does not depend on what varies.</summary>
    internal bool IsInfiniteConstant(int layer) => Varied.All(one => one.Parts.All(part => part.Layer >= layer));

    /// <summary>
    /// True when the substrate has data on the same grid and the index that the stack was compiled over.
    /// </summary>
    internal bool Serves(Substrate substrate) =>
        (substrate.Grid is null || substrate.Grid.Equals(Grid)) && substrate.HasSameIndexAs(Stack.Substrate);

    private static void CheckParts(LayerStack stack, IReadOnlyList<VariableThickness> varied)
    {
        if (varied.Count > 2)
        {
            throw new ArgumentException(
                $"One or two thicknesses can vary but {Guard.Text(varied.Count)} are given.", nameof(varied));
        }

        foreach (LayerPart part in varied.SelectMany(one => one.Parts))
        {
            Guard.InRange(part.Layer, 0, stack.Layers.Count - 1, "layer that varies");
        }

        if (varied.SelectMany(one => one.Parts).GroupBy(part => part.Layer).Any(group => group.Count() > 1))
        {
            throw new ArgumentException(
                "A layer can vary in one way only but stands in both thicknesses that vary.", nameof(varied));
        }
    }

    private void RequireServes(Substrate substrate)
    {
        if (!Serves(Guard.NotNull(substrate)))
        {
            substrate.Grid?.RequireSame(Grid, $"'{substrate.Name}'");
            throw new ArgumentException(
                $"'{substrate.Name}' has another refractive index than '{Stack.Substrate.Name}', over which the "
                    + $"stack was compiled; compile it over '{substrate.Name}'.", nameof(substrate));
        }
    }

    private void RequireLength(Span<double> destination)
    {
        if (destination.Length != Grid.Count)
        {
            throw new ArgumentException(
                $"destination holds {destination.Length} values but {Grid} is needed.", nameof(destination));
        }
    }

    // R = A + B g / (1 - C g), never below 0.
    private static Vector<double> Over(Vector<double> a, Vector<double> b, Vector<double> c, Vector<double> g) =>
        Vector.Max(Vector<double>.Zero, a + (b * g / (Vector<double>.One - (c * g))));

    // The product of the polynomials of every axis at every node.
    private void Polynomials(ReadOnlySpan<double> thicknessesMm, Span<double> factors)
    {
        if (thicknessesMm.Length != Axes.Length)
        {
            throw new ArgumentException(
                $"{Guard.Text(Axes.Length)} thickness(es) vary but {Guard.Text(thicknessesMm.Length)} are given.",
                nameof(thicknessesMm));
        }

        int first = Axes[0].Count;
        Fill(0, thicknessesMm[0], factors.Slice(0, first));
        if (Axes.Length > 1)
        {
            Span<double> other = stackalloc double[Axes[1].Count];
            Fill(1, thicknessesMm[1], other);
            for (int node = factors.Length - 1; node >= 0; node--)
            {
                factors[node] = factors[node % first] * other[node / first];
            }
        }

        void Fill(int axis, double mm, Span<double> polynomials)
        {
            Guard.InRange(mm, Varied[axis].Range.MinMm, Varied[axis].Range.MaxMm, "mm", "thicknessMm");
            Chebyshev.Polynomials(Axes[axis].At(mm), polynomials);
        }
    }
}
