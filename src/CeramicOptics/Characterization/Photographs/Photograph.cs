using CeramicOptics.Colorimetry;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>Numbers from one photograph that shows a reference chart with known colours beside the tooth.</summary>
/// <remarks>
/// Chart and tooth must have the same light, exposure and white balance: one picture, the chart in the plane of the
/// tooth. Immutable and safe to share.
/// </remarks>
public sealed class Photograph
{
    /// <summary>Fewest patches of a chart.</summary>
    internal const int FewestChartPatches = 6;

    /// <summary>A photograph.</summary>
    /// <param name="curve">Whether the values are linear, or display values of which curve.</param>
    /// <param name="chart">Patches of the reference chart, at least 6.</param>
    /// <param name="under">
    /// Illuminant and observer of the chart's known colours; colours are given under the same.
    /// </param>
    /// <param name="patches">Patches of the tooth, such as stump and neighbour; at least one.</param>
    /// <exception cref="ArgumentException">Too few patches, or two of one name.</exception>
    public Photograph(
        TransferCurve curve, IEnumerable<ChartPatch> chart, Colorimeter under, IEnumerable<PatchReading> patches)
    {
        Curve = Guard.NotNull(curve);
        Chart = Guard.Copy(chart, FewestChartPatches);
        Under = Guard.NotNull(under);
        Patches = Guard.Copy(patches, minimumCount: 1);
        string? twice = Chart.Select(patch => patch.Reading.Name).Concat(Patches.Select(patch => patch.Name))
            .GroupBy(name => name, StringComparer.Ordinal).FirstOrDefault(group => group.Count() > 1)?.Key;
        if (twice is not null)
        {
            throw new ArgumentException($"Two patches of the photograph are called '{twice}'.", nameof(patches));
        }
    }

    /// <summary>How the values follow the light.</summary>
    internal TransferCurve Curve { get; }

    /// <summary>Patches of the reference chart.</summary>
    internal IReadOnlyList<ChartPatch> Chart { get; }

    /// <summary>Illuminant and observer of the chart's known colours.</summary>
    internal Colorimeter Under { get; }

    /// <summary>Patches of the tooth.</summary>
    internal IReadOnlyList<PatchReading> Patches { get; }
}
