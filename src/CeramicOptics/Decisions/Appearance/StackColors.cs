using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>
/// Tristimulus values of several views as functions of independent standard normal inputs.
/// </summary>
internal sealed class StackColors
{
    private readonly IReadOnlyList<View> _views;
    private readonly AppearanceOptions _options;
    private readonly CancellationToken _cancellation;
    private readonly WeightingTable _table;
    private readonly double[][] _base;

    // Moves of all tristimulus values by one standard uncertainty of each input, to first and second order.
    private readonly List<(double[] First, double[]? Second)> _moves = [];

    /// <summary>Takes what each input does from the coarse form of the theory.</summary>
    public StackColors(IReadOnlyList<View> views, AppearanceOptions options, CancellationToken cancellation)
    {
        (_views, _options, _cancellation) = (views, options, cancellation);
        _table = options.Under.Weighting(views[0].Stack.Stack.Grid);
        Nominal = [.. views.Select(view => _table.ToXyz(view.Spectrum(
            view.Stack.Stack.Layers, view.Under, view.Stack.Stack.Model, options.Geometry)))];
        _base = [.. views.Select(view => Spectrum(view, view.Stack.Stack.Layers, view.Under))];
        UncertainStack[] stacks = [.. views.Select(view => view.Stack).Distinct()];
        foreach (UncertainStack stack in stacks)
        {
            for (int j = 0; j < stack.Stack.Layers.Count; j++)
            {
                int at = j;
                AddInput(stack.ThicknessStandardUncertaintiesMm[j], (view, size) => view.Stack != stack ? null
                    : Layers(view, (layer, i) => i == at ? Thicker(layer, layer.ThicknessMm + size) : layer));
            }
        }

        foreach (Material material in stacks.SelectMany(stack => stack.Stack.Layers).Select(layer => layer.Material)
            .Distinct())
        {
            AddMaterial(
                material, stacks.Where(stack => stack.Stack.Layers.Any(layer => layer.Material == material))
                    .Max(stack => stack.Inputs.RefractiveIndex));
        }

        foreach (IGrouping<Substrate?, View> same in views.Where(view => view.SubstrateReflectance > 0)
            .GroupBy(view => view.Under))
        {
            AddInput(same.Max(view => view.SubstrateReflectance), (view, _) => same.Contains(view)
                ? view.Stack.Stack.Layers
                : null, (view, size) => view.Under!.Shifted(size));
        }
    }

    /// <summary>Tristimulus values with every input at its value.</summary>
    public Xyz[] Nominal { get; }

    /// <summary>White of all colours.</summary>
    public Xyz White => _table.White;

    /// <summary>Numbers made from colours, each with its distribution.</summary>
    /// <param name="measures">Numbers from colours, their tristimulus values and standard normal numbers for the
    /// model's own error.</param>
    /// <param name="modelDimensions">How many of these.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    public UncertainValue[] Sample(Measure measures, int modelDimensions, IProgress<double>? progress)
    {
        int dimensions = _moves.Count + modelDimensions;
        double[] nominal = At(measures, new double[dimensions]);
        NormalPoints points = new(dimensions, _options.Sampling, _cancellation);
        double[][] sampled = [.. nominal.Select(_ => new double[points.Count])];
        for (int from = 0; from < points.Count; from += points.PerReplicate)
        {
            ReadOnlySpan<double> replicate = points.Replicate(from / points.PerReplicate);
            for (int k = 0; k < points.PerReplicate; k++)
            {
                _cancellation.ThrowIfCancellationRequested();
                double[] values = At(measures, replicate.Slice(k * dimensions, dimensions));
                for (int f = 0; f < values.Length; f++)
                {
                    sampled[f][from + k] = values[f];
                }
            }

            progress?.Report((from + points.PerReplicate) / (double)points.Count);
        }

        return [.. nominal.Select((value, f) =>
            new UncertainValue(value, new SampledDifferences(sampled[f], points.PerReplicate, _cancellation)))];
    }

    private double[] At(Measure measures, ReadOnlySpan<double> z)
    {
        double[] sum = Flat(Nominal);
        for (int i = 0; i < _moves.Count; i++)
        {
            (double[] first, double[]? second) = _moves[i];
            SpanMath.AddScaled(sum, first, z[i]);
            if (second is not null)
            {
                SpanMath.AddScaled(sum, second, z[i] * z[i]);
            }
        }

        Xyz[] xyz = [.. Enumerable.Range(0, _views.Count).Select(v => new Xyz(
            Math.Max(0, sum[3 * v]), Math.Max(0, sum[(3 * v) + 1]), Math.Max(0, sum[(3 * v) + 2])))];
        return measures(Array.ConvertAll(xyz, one => Lab.FromXyz(one, White)), xyz, z.Slice(_moves.Count));
    }

    private void AddMaterial(Material material, double indexUncertainty)
    {
        CoefficientUncertainty? uncertainty = material.Uncertainty;
        IEnumerable<Layer>? With(View view, Func<Layer, Layer> moved) =>
            view.Stack.Stack.Layers.All(layer => layer.Material != material) ? null
                : Layers(view, (layer, _) => layer.Material == material ? moved(layer) : layer);

        // In both theories a common factor of K and S is one of the thickness.
        AddInput(uncertainty?.RelativeScale ?? 0, (view, size) =>
            With(view, layer => Thicker(layer, layer.ThicknessMm * (1 + size))));
        AddInput(indexUncertainty, (view, size) => With(view, layer => new Layer(
            Moved(material, null, null, size), layer.ThicknessMm)));
        if (uncertainty is null)
        {
            return;
        }

        (double[] stepK, double[] stepS) = CoefficientSteps.Of(material);
        double[][] byK = Slopes(Moved(material, stepK, null, 0), stepK),
            byS = Slopes(Moved(material, null, stepS, 0), stepS);
        int size = 3 * _views.Count;
        foreach (double[] direction in NoiseDirections.Of(uncertainty, size, size, Effect))
        {
            _moves.Add((direction, null));
        }

        void Effect(int i, double moveK, double moveS, double[] move)
        {
            for (int v = 0; v < _views.Count; v++)
            {
                double change = (moveK * byK[v][i]) + (moveS * byS[v][i]);
                move[3 * v] += _table.X[i] * change;
                move[(3 * v) + 1] += _table.Y[i] * change;
                move[(3 * v) + 2] += _table.Z[i] * change;
            }
        }

        double[][] Slopes(Material moved, double[] steps) => [.. _views.Select((view, v) =>
        {
            _cancellation.ThrowIfCancellationRequested();
            double[]? spectrum = With(view, layer => new Layer(moved, layer.ThicknessMm)) is { } layers
                ? Spectrum(view, layers, view.Under)
                : null;
            return spectrum is null
                ? new double[steps.Length]
                : [.. spectrum.Select((value, i) => (value - _base[v][i]) / steps[i])];
        })];
    }

    // An input that moves the layers of some views (null for the others), or what lies below them.
    private void AddInput(
        double size, Func<View, double, IEnumerable<Layer>?> layers, Func<View, double, Substrate>? under = null)
    {
        if (size == 0)
        {
            return;
        }

        double[] first = new double[3 * _views.Count], second = new double[first.Length];
        for (int v = 0; v < _views.Count; v++)
        {
            _cancellation.ThrowIfCancellationRequested();
            View view = _views[v];
            if (layers(view, size) is not { } upper || layers(view, -size) is not { } lower)
            {
                continue;
            }

            Xyz from = _table.ToXyz(_base[v]);
            Xyz up = _table.ToXyz(Spectrum(view, upper, under?.Invoke(view, size) ?? view.Under));
            Xyz down = _table.ToXyz(Spectrum(view, lower, under?.Invoke(view, -size) ?? view.Under));
            (double, double, double)[] axes = [(from.X, up.X, down.X), (from.Y, up.Y, down.Y), (from.Z, up.Z, down.Z)];
            for (int c = 0; c < 3; c++)
            {
                (double middle, double above, double below) = axes[c];
                first[(3 * v) + c] = (above - below) / 2;
                second[(3 * v) + c] = ((above + below) / 2) - middle;
            }
        }

        _moves.Add((first, second));
    }

    private double[] Spectrum(View view, IEnumerable<Layer> layers, Substrate? under) =>
        view.Spectrum(layers, under, view.Stack.Stack.Model.Coarse, _options.Geometry);

    private static IEnumerable<Layer> Layers(View view, Func<Layer, int, Layer> moved) =>
        view.Stack.Stack.Layers.Select(moved);

    private static Layer Thicker(Layer layer, double mm) =>
        new(layer.Material, Math.Min(Math.Max(0, mm), Layer.MaximumThicknessMm));

    private static Material Moved(Material material, double[]? stepK, double[]? stepS, double index)
    {
        double[] k = material.Absorption.Values.ToArray(), s = material.Scattering.Values.ToArray();
        for (int i = 0; i < k.Length; i++)
        {
            (k[i], s[i]) = (k[i] + (stepK?[i] ?? 0), s[i] + (stepS?[i] ?? 0));
        }

        // Indices end at 1.
        RefractiveIndex from = material.RefractiveIndex;
        double least = Math.Min(from.Constant, from.At(material.Grid.EndNm));
        double step = Math.Max(index, 1 - least);
        return new Material(
            material.Name, material.Model, new AbsorptionSpectrum(material.Grid, k),
            new ScatteringSpectrum(material.Grid, s), new RefractiveIndex(from.Constant + step, from.CauchyNm2));
    }

    private static double[] Flat(Xyz[] xyz)
    {
        double[] flat = new double[3 * xyz.Length];
        for (int v = 0; v < xyz.Length; v++)
        {
            (flat[3 * v], flat[(3 * v) + 1], flat[(3 * v) + 2]) = (xyz[v].X, xyz[v].Y, xyz[v].Z);
        }

        return flat;
    }

    /// <summary>Numbers from colours, their tristimulus values and the model's own error.</summary>
    public delegate double[] Measure(Lab[] colors, Xyz[] xyz, ReadOnlySpan<double> model);
}
