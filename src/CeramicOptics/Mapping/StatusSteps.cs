using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;

namespace CeramicOptics.Mapping;

/// <summary>The status of a point as steps over its thickness, from the same crossings as the answer of its
/// zone.</summary>
internal sealed class StatusSteps
{
    // Each step begins at its edge and has the status after; the first status has no beginning.
    private readonly double[] _edgesMm;
    private readonly PointStatus[] _statuses;

    /// <param name="range">Thicknesses that are covered.</param>
    /// <param name="masked">Where the prediction meets the criterion.</param>
    /// <param name="minimum">The answer of the zone.</param>
    public StatusSteps(ThicknessRange range, IReadOnlyList<ThicknessRange> masked, MinimumThickness minimum)
    {
        ThicknessRange? reliable = minimum.ReliableMm is double mm
            ? new ThicknessRange(mm, minimum.ReliableUpToMm ?? range.MaxMm)
            : null;
        double inside = SinglePrecision.Below(range.MinMm), above = SinglePrecision.Above(range.MaxMm),
            strong = SinglePrecision.Below(minimum.StructuralMm ?? 0);
        _edgesMm = [.. masked.Concat(reliable is { } one ? [one] : [])
            .SelectMany(part => (double[])[
                SinglePrecision.Below(part.MinMm), SinglePrecision.Above(part.MaxMm)])
            .Append(strong)
            .Where(edge => edge > inside && edge < above)
            .Concat([inside, above]).Distinct().OrderBy(edge => edge)];
        _statuses = [PointStatus.BelowRange, .. _edgesMm.Select(edge => edge >= above ? PointStatus.AboveRange
            : !masked.Any(part => Has(part, edge)) ? PointStatus.Shows
            : edge < strong ? PointStatus.BelowStructuralMinimum
            : reliable is { } part && Has(part, edge) ? PointStatus.MaskedReliably
            : PointStatus.MaskedByColorOnly)];
    }

    /// <summary>The status at a thickness, mm; NaN for no data.</summary>
    public PointStatus At(double mm)
    {
        int step = 0;
        foreach (double edge in _edgesMm)
        {
            step += mm >= edge ? 1 : 0;
        }

        return double.IsNaN(mm) ? PointStatus.NoData : _statuses[step];
    }

    /// <summary>The statuses at many thicknesses.</summary>
    public void At(ReadOnlySpan<double> mm, Span<PointStatus> destination)
    {
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = At(mm[i]);
        }
    }

    private static bool Has(ThicknessRange part, double edgeMm) =>
        edgeMm >= SinglePrecision.Below(part.MinMm) && edgeMm < SinglePrecision.Above(part.MaxMm);
}
