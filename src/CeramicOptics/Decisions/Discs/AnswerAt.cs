using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Discs;

/// <summary>An answer about one zone, and how errors of K and S of one material move it.</summary>
/// <remarks>
/// A difference moves as the engine of uncertainties computes it; a thickness by u(t) = u(difference) / |d difference /
/// dt| at the crossing. Not for use by two threads at once.
/// </remarks>
internal sealed class AnswerAt
{
    private readonly ZoneComparison _zone;
    private readonly double _wallMm, _perDifference, _difference;
    private readonly double[] _colors, _references;
    private readonly Chebyshev _axis;
    private readonly double[][] _slopes;

    public AnswerAt(ZoneComparison zone, string material, double? crossingMm)
    {
        (_zone, _wallMm) = (zone, crossingMm ?? zone.Zone.AvailableMm);
        int width = 3 * zone.Lights;
        (_colors, _references) = (new double[width], new double[width]);
        zone.Tristimulus(_wallMm, _colors, _references);
        _difference = zone.Difference(_wallMm);
        _perDifference = crossingMm is null ? 1 : 1 / zone.SteepnessAt(_wallMm);
        Value = crossingMm ?? _difference;
        (_axis, _slopes) = SlopesOf(zone, material);

        UncertaintyModel model = new(zone);
        model.Prepare(_wallMm);
        double variance = Math.Pow(model.StandardUncertainty() * _perDifference, 2);
        Contribution[] others = [.. model.Contributions().Where(item => item.Material != material
            || item.Input is not (UncertainInput.CoefficientScale or UncertainInput.CoefficientNoise))];
        double share = others.Sum(item => item.Share);
        FromOthers = Math.Sqrt(share * variance);
        Others = Guard.Copy(others.Select(item => new Contribution(
            item.Input, item.Role, item.Material, item.DifferenceLow, item.DifferenceHigh, item.Share / share)));
    }

    /// <summary>The answer with the constants as they are.</summary>
    public double Value { get; }

    /// <summary>Standard uncertainty from everything but K and S of the material.</summary>
    public double FromOthers { get; }

    public IReadOnlyList<Contribution> Others { get; }

    /// <summary>
    /// Standard uncertainty of the answer from errors of K and S: several, independent of each other.
    /// </summary>
    public double Uncertainty(IReadOnlyList<CoefficientUncertainty> errors)
    {
        double squares = 0;
        int width = _colors.Length;
        foreach (CoefficientUncertainty error in errors)
        {
            ReadingNoise noise = new(_axis, error, _slopes, _zone.Tables);
            double[] colors = new double[noise.Directions * width], references = new double[colors.Length];
            noise.SetDirections(_wallMm, colors, references);
            for (int i = 0; i < noise.Directions; i++)
            {
                ReadOnlySpan<double> color = colors.AsSpan(i * width, width),
                    reference = references.AsSpan(i * width, width);
                double high = Moved(color, reference, 1) - _difference, low = Moved(color, reference, -1) - _difference;
                squares += ((high * high) + (low * low)) / 2;
            }
        }

        return Math.Sqrt(squares) * _perDifference;
    }

    private double Moved(ReadOnlySpan<double> color, ReadOnlySpan<double> reference, double by)
    {
        Span<double> colors = stackalloc double[_colors.Length], references = stackalloc double[_colors.Length];
        _colors.AsSpan().CopyTo(colors);
        _references.AsSpan().CopyTo(references);
        SpanMath.AddScaled(colors, color, by);
        SpanMath.AddScaled(references, reference, by);
        Span<Colorimetry.Lab> samples = stackalloc Colorimetry.Lab[_zone.Lights],
            others = stackalloc Colorimetry.Lab[_zone.Lights];
        for (int c = 0; c < _zone.Lights; c++)
        {
            samples[c] = _zone.ToLab(colors, c);
            others[c] = _zone.Targets?[c] ?? _zone.ToLab(references, c);
        }

        return ZoneComparison.Largest(_zone.Criterion, others, samples, out _);
    }

    // Slopes by K and S, and those of the reference, summed over all layers of the material.
    private static (Chebyshev Axis, double[][] Slopes) SlopesOf(ZoneComparison zone, string material)
    {
        double[][]? sum = null;
        Chebyshev? axis = null;
        for (int i = 0; i < zone.Neighbours.Count; i++)
        {
            WallNeighbour neighbour = zone.Neighbours[i];
            if (neighbour.Quantity == MovedQuantity.Absorption && neighbour.Material.Name == material)
            {
                double[][] slopes = WallCurves.CoefficientSlopes(zone, i);
                axis = neighbour.Axis;
                sum = sum is null ? slopes : [.. sum.Zip(slopes, (a, b) => a.Zip(b, (x, y) => x + y).ToArray())];
            }
        }

        return (axis!, sum!);
    }
}
