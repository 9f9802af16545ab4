using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>A stack and what it is compared with, for any thicknesses of its layers. Not for use by two threads at once.</summary>
internal sealed class StackJudge
{
    // Thick enough to be infinite for any material that absorbs or scatters at all.
    private const double InfiniteMm = 1e9;

    private readonly LayerStack _stack;
    private readonly int _ceramicLayer;
    private readonly StackKernel _kernel;
    private readonly StackKernel? _moving;
    private readonly bool _isSelfBacked;
    private readonly Xyz[] _targets;
    private readonly ColorCriterion _criterion;
    private readonly IReadOnlyList<Colorimeter> _colorimeters;
    private readonly double[] _spectrum, _layersMm;

    public StackJudge(
        LayerStack stack, int ceramicLayer, MaskingReference reference, ColorCriterion criterion, ViewingConditions conditions, BoundaryMemo boundaries)
    {
        (_stack, _ceramicLayer, _criterion, _colorimeters) = (stack, ceramicLayer, criterion, conditions.Colorimeters);
        Tables = [.. _colorimeters.Select(colorimeter => colorimeter.Weighting(stack.Grid))];
        _kernel = new StackKernel(stack, conditions.Geometry, boundaries);
        (_spectrum, _layersMm) = (new double[stack.Grid.Count], new double[stack.Layers.Count]);
        Lab[]? targets = reference.TargetColors(_colorimeters, stack.Grid);
        _targets = targets is null ? [] : [.. targets.Select((color, c) => color.ToXyz(Tables[c].White))];
        _isSelfBacked = targets is null && reference.Substrate is null;
        _moving = targets is not null ? null
            : reference.Substrate is { } good ? new StackKernel(stack.WithSubstrate(good), conditions.Geometry, boundaries) : _kernel;
    }

    public WeightingTable[] Tables { get; }

    /// <summary>Thicknesses of the stack as it was given.</summary>
    public double[] ThicknessesMm => [.. _stack.Layers.Select(layer => layer.ThicknessMm)];

    /// <summary>Tristimulus values of the stack and of its reference, one a colorimeter.</summary>
    public void Evaluate(ReadOnlySpan<double> thicknessesMm, double stumpShift, Span<Xyz> colors, Span<Xyz> references)
    {
        Sum(_kernel, thicknessesMm, stumpShift, colors);
        if (_moving is null)
        {
            _targets.AsSpan().CopyTo(references);
            return;
        }

        thicknessesMm.CopyTo(_layersMm);
        if (_isSelfBacked)
        {
            _layersMm[_ceramicLayer] = InfiniteMm;
        }

        Sum(_moving, _layersMm, 0, references);
    }

    /// <summary>The limiting illuminant at some thicknesses.</summary>
    public WorstCase Worst(ReadOnlySpan<double> thicknessesMm, double shownThicknessMm)
    {
        Span<Xyz> colors = stackalloc Xyz[Tables.Length], references = stackalloc Xyz[Tables.Length];
        Evaluate(thicknessesMm, 0, colors, references);
        WorstCase? worst = null;
        for (int c = 0; c < colors.Length; c++)
        {
            Lab color = Lab.FromXyz(colors[c], Tables[c].White), reference = Lab.FromXyz(references[c], Tables[c].White);
            double difference = _criterion.Difference(reference, color);
            worst = worst is null || difference > worst.Difference
                ? new WorstCase(shownThicknessMm, difference, _stack.Substrate, _colorimeters[c], reference, color)
                : worst;
        }

        return worst!;
    }

    private void Sum(StackKernel kernel, ReadOnlySpan<double> thicknessesMm, double stumpShift, Span<Xyz> colors)
    {
        kernel.Reflectance(thicknessesMm, stumpShift, _spectrum);
        for (int c = 0; c < colors.Length; c++)
        {
            colors[c] = Tables[c].SumInLanes(_spectrum);
        }
    }
}
