using System.Collections.Concurrent;
using System.Numerics;
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

    // So that factors of a batch fit on the stack, those of 25 nodes on each of two axes too.
    private const int MostNodesTogether = 640;

    // By node (of the second thickness, then of the first), then function, then wavelength; coefficients likewise.
    private readonly double[] _values;
    private readonly ResponseKernel _kernel;
    private readonly IOpticalModel _model;
    private readonly ConcurrentDictionary<int, double[]> _infinite = new();

    private StackResponse(
        LayerStack stack, IOpticalModel model, MeasurementGeometry geometry, IReadOnlyList<VariableThickness> varied,
        Chebyshev[] axes, double[] values, double[] coefficients, double bound)
    {
        (Stack, _model, Geometry, Varied, Axes, ErrorBound) = (stack, model, geometry, varied, axes, bound);
        Nodes = axes.Aggregate(1, (count, axis) => count * axis.Count);
        _values = values;
        _kernel = new ResponseKernel(coefficients, Grid.Count);
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
        RequireCount(Guard.NotNull(thicknessesMm));
        double[] values = new double[Grid.Count];
        Reflectance(thicknessesMm, substrate ?? Stack.Substrate, values);
        return new ReflectanceSpectrum(Grid, values);
    }

    /// <summary>The same of one wall or many, into the caller's memory; allocates nothing.</summary>
    /// <param name="thicknessesMm">
    /// Thicknesses inside their ranges, mm, in the order given to Compile, those of one wall after the other.
    /// </param>
    /// <param name="substrate">The substrate of all walls.</param>
    /// <param name="destination">
    /// Receives the reflectance factors, all wavelengths of the first wall, then of the second, and so on.
    /// </param>
    /// <exception cref="ArgumentException">
    /// Not as many thicknesses a wall as vary, a length that is not the grid's for each wall, or a substrate of another
    /// grid or refractive index.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is outside its range or NaN.</exception>
    /// <remarks>
    /// Eight walls or more are several times as fast together as one by one, and the same within rounding.
    /// </remarks>
    public void Reflectance(ReadOnlySpan<double> thicknessesMm, Substrate substrate, Span<double> destination)
    {
        RequireServes(substrate);
        int n = Grid.Count, walls = Walls(thicknessesMm, destination), done = 0;
        Span<double> body = stackalloc double[_kernel.SubstrateLength];
        substrate.CopyInternalReflectances(body.Slice(0, n));
        if (walls >= ResponseKernel.Walls && Nodes <= MostNodesTogether)
        {
            // The last batch begins early enough to be whole.
            Span<double> batch = stackalloc double[ResponseKernel.Walls * Nodes];
            for (; done < walls; done += ResponseKernel.Walls)
            {
                int first = Math.Min(done, walls - ResponseKernel.Walls);
                ResponseFactors.Batch(
                    Axes, thicknessesMm.Slice(first * Axes.Length, ResponseKernel.Walls * Axes.Length), batch);
                _kernel.Batch(batch, body, destination.Slice(first * n, ResponseKernel.Walls * n));
            }

            return;
        }

        Span<double> factors = stackalloc double[Nodes];
        for (; done < walls; done++)
        {
            ResponseFactors.One(Axes, thicknessesMm.Slice(done * Axes.Length, Axes.Length), factors);
            _kernel.One(factors, body, destination.Slice(done * n, n));
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
        RequireCount(Guard.NotNull(thicknessesMm));
        Span<double> factors = stackalloc double[Nodes];
        ResponseFactors.One(Axes, thicknessesMm, factors);
        double[] values = new double[Grid.Count];
        _kernel.Passing(factors, values);
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = Math.Min(1, Math.Max(0, values[i]));
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
                Vector<double> one = ResponseKernel.Over(
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
    internal double[] InfiniteAtNodes(int layer, CancellationToken cancellation = default) =>
        _infinite.GetOrAdd(layer, key => InfiniteReadings(key, cancellation));

    private double[] InfiniteReadings(int layer, CancellationToken cancellation)
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

            cancellation.ThrowIfCancellationRequested();
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

    private void RequireCount(ReadOnlySpan<double> thicknessesMm)
    {
        if (thicknessesMm.Length != Axes.Length)
        {
            throw new ArgumentException(
                $"{Guard.Text(Axes.Length)} thickness(es) vary but {Guard.Text(thicknessesMm.Length)} are given.",
                nameof(thicknessesMm));
        }
    }

    private int Walls(ReadOnlySpan<double> thicknessesMm, Span<double> destination)
    {
        int walls = thicknessesMm.Length / Axes.Length;
        if (walls * Axes.Length != thicknessesMm.Length)
        {
            RequireCount(thicknessesMm);
        }

        if (destination.Length != (long)walls * Grid.Count)
        {
            throw new ArgumentException(
                $"destination holds {destination.Length} values but {Grid} is needed"
                    + (walls == 1 ? "." : $" for each of {Guard.Text(walls)} walls."),
                nameof(destination));
        }

        return walls;
    }
}
