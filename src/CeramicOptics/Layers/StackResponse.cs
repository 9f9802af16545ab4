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
    private readonly double[] _values, _coefficients;
    private readonly IOpticalModel _model;
    private readonly ConcurrentDictionary<int, double[]> _infinite = new();

    private StackResponse(
        LayerStack stack, IOpticalModel model, MeasurementGeometry geometry, IReadOnlyList<VariableThickness> varied,
        Chebyshev[] axes, double[] values, double[] coefficients, double bound)
    {
        (Stack, _model, Geometry, Varied, Axes, ErrorBound) = (stack, model, geometry, varied, axes, bound);
        (_values, _coefficients) = (values, coefficients);
    }

    /// <summary>The stack that was compiled.</summary>
    public LayerStack Stack { get; }

    /// <summary>Geometry of all readings.</summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>What varies, one or two thicknesses.</summary>
    public IReadOnlyList<VariableThickness> Varied { get; }

    /// <summary>Wavelengths of all spectra.</summary>
    public WavelengthGrid Grid => Stack.Grid;

    /// <summary>
    /// Bound on the error of a reflectance against direct evaluation of the same model, from the decay of the
    /// coefficients; rounding included.
    /// </summary>
    public double ErrorBound { get; }

    internal Chebyshev[] Axes { get; }

    /// <summary>Number of nodes of all axes together.</summary>
    internal int Nodes => Axes.Aggregate(1, (count, axis) => count * axis.Count);

    /// <summary>Reflectance factor at one thickness of each kind that varies.</summary>
    /// <param name="substrate">The substrate; null for that of the stack.</param>
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order of <see cref="Varied"/>.</param>
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
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order of <see cref="Varied"/>.</param>
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
        int n = RequireLength(destination);
        Span<double> sums = stackalloc double[3 * n <= 1024 ? 3 * n : 0];
        sums = sums.Length == 3 * n ? sums : new double[3 * n];
        Sum(thicknessesMm, 3, sums);
        Over(substrate, sums, destination);
    }

    /// <summary>
    /// Share of the instrument's light that reaches the substrate; light that the substrate returns is not counted
    /// again.
    /// </summary>
    /// <param name="thicknessesMm">Thicknesses inside their ranges, mm, in the order of <see cref="Varied"/>.</param>
    /// <exception cref="ArgumentException">Not as many thicknesses as vary.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    public TransmittanceSpectrum Transmittance(params double[] thicknessesMm)
    {
        int n = Grid.Count;
        double[] sums = new double[Functions * n];
        Sum(Guard.NotNull(thicknessesMm), Functions, sums);
        return new TransmittanceSpectrum(Grid, [.. sums.Skip(3 * n).Select(value => Math.Min(1, Math.Max(0, value)))]);
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
            double[] coefficients = ResponseCoefficients.Coefficients(axes, values, Functions * stack.Grid.Count);
            double bound = ResponseCoefficients.BoundOf(axes, values, coefficients, stack.Grid.Count);
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
        for (int node = 0; node < Nodes; node++)
        {
            Over(substrate, _values.AsSpan(node * Functions * n, 3 * n), values.AsSpan(node * n, n));
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

    private int RequireLength(Span<double> destination) => destination.Length == Grid.Count
        ? destination.Length
        : throw new ArgumentException(
            $"destination holds {destination.Length} values but {Grid} is needed.", nameof(destination));

    // R = A + B g / (1 - C g), from A, B and C side by side; never below 0.
    private static void Over(Substrate substrate, ReadOnlySpan<double> functions, Span<double> destination)
    {
        int n = destination.Length, whole = substrate.HasSpectrum ? n - (n % Vector<double>.Count) : 0;
        for (int i = 0; i < whole; i += Vector<double>.Count)
        {
            Vector<double> g = substrate.InternalReflectancesFrom(i), a = At(functions, i), b = At(functions, n + i), c =
                At(functions, (2 * n) + i);
            Vector.Max(Vector<double>.Zero, a + (b * g / (Vector<double>.One - (c * g)))).CopyTo(destination.Slice(i));
        }

        for (int i = whole; i < n; i++)
        {
            double g = substrate.InternalReflectanceAt(i);
            destination[i] = Math.Max(0, functions[i] + (functions[n + i] * g / (1 - (functions[(2 * n) + i] * g))));
        }

        static Vector<double> At(ReadOnlySpan<double> values, int at) =>
            MemoryMarshal.Cast<double, Vector<double>>(values.Slice(at, Vector<double>.Count))[0];
    }

    // The first functions side by side, each at all wavelengths.
    private void Sum(ReadOnlySpan<double> thicknessesMm, int functions, Span<double> sums)
    {
        if (thicknessesMm.Length != Axes.Length)
        {
            throw new ArgumentException(
                $"{Guard.Text(Axes.Length)} thickness(es) vary but {Guard.Text(thicknessesMm.Length)} are given.",
                nameof(thicknessesMm));
        }

        int n = Grid.Count, first = Axes[0].Count, second = Axes.Length > 1 ? Axes[1].Count : 1;
        Span<double> one = stackalloc double[first], other = stackalloc double[second];
        Fill(0, thicknessesMm[0], one);
        other[0] = 1;
        if (Axes.Length > 1)
        {
            Fill(1, thicknessesMm[1], other);
        }

        Span<double> factors = stackalloc double[first * second];
        for (int node = 0; node < factors.Length; node++)
        {
            factors[node] = one[node % first] * other[node / first];
        }

        SpanMath.SumScaled(_coefficients, Functions * n, factors, sums.Slice(0, functions * n));

        void Fill(int axis, double mm, Span<double> polynomials)
        {
            Guard.InRange(mm, Varied[axis].Range.MinMm, Varied[axis].Range.MaxMm, "mm", "thicknessMm");
            Chebyshev.Polynomials(Axes[axis].At(mm), polynomials);
        }
    }
}
