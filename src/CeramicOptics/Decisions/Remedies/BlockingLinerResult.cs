using System.Text.Json.Serialization;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>
/// Whether a restoration meets its criterion with an opaque layer under the ceramic, how thick that must be, and what
/// it costs in translucency.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class BlockingLinerResult : Answer
{
    internal BlockingLinerResult(
        Restoration restoration, IReadOnlyList<LimitingCase> without, double? thicknessMm, double? bestMm,
        Restoration? lined, IReadOnlyList<LimitingCase>? with, IReadOnlyList<Caution> cautions)
        : base(cautions)
    {
        (Restoration, Without, ThicknessMm, BestMm, Lined) =
            (restoration, Guard.Copy(without), thicknessMm, bestMm, lined);
        Zones = Guard.Copy(with ?? without);
    }

    /// <summary>The restoration that was asked about.</summary>
    public Restoration Restoration { get; }

    /// <summary>The limiting light in each zone of the restoration as it stands.</summary>
    public IReadOnlyList<LimitingCase> Without { get; }

    /// <summary>
    /// The thinnest liner with which every zone meets the criterion, mm (to 0.0005), 0 when none is needed; null when
    /// none does.
    /// </summary>
    public double? ThicknessMm { get; }

    /// <summary>
    /// Thickness of the liner with the smallest largest difference among those tried, mm, 0 when without is best; null
    /// when strength leaves no room for any.
    /// </summary>
    public double? BestMm { get; }

    /// <summary>
    /// The restoration with the liner of <see cref="ThicknessMm"/>, or the best one, every zone with the wall that is
    /// left; null when there is no liner.
    /// </summary>
    public Restoration? Lined { get; }

    /// <summary>
    /// The limiting light in each zone of <see cref="Lined"/>, or without where there is no liner; walls are those
    /// beside the liner.
    /// </summary>
    public IReadOnlyList<LimitingCase> Zones { get; }

    /// <summary>Largest difference over zones as it stands.</summary>
    public double WorstWithout => Without.Max(zone => zone.Difference);

    /// <summary>Largest difference over <see cref="Zones"/>.</summary>
    public double WorstDifference => Zones.Max(zone => zone.Difference);

    /// <summary>True when every zone meets the criterion.</summary>
    public bool Meets => ThicknessMm is not null;

    /// <summary>
    /// TP00 of core, veneer and any liner of the thinnest zone as it stands, over ideal black and white, D65 and 2
    /// degrees.
    /// </summary>
    public double TranslucencyWithout => TranslucencyOf(Restoration);

    /// <summary>The same of <see cref="Lined"/>, or without where there is no liner.</summary>
    public double TranslucencyWith => TranslucencyOf(Lined ?? Restoration);

    /// <summary>For example "0.085 mm of liner: difference 4.2 becomes 1.8, TP00 14.0 becomes 3.1".</summary>
    private protected override string InWords(Language language) => (ThicknessMm, BestMm, Lined) switch
        {
            (0, _, _) => language.Text("BlockingLinerResult.NotNeeded"),
            (_, null, _) => language.Text("BlockingLinerResult.NoRoom"),
            (_, _, null) => language.Text("BlockingLinerResult.NoHelp", WorstWithout),
            _ => language.Text(
                "BlockingLinerResult", Lined!.Liner!.ThicknessMm, Lined.Liner.Material.Name, WorstWithout,
                WorstDifference, TranslucencyWithout, TranslucencyWith),
        };

    private static double TranslucencyOf(Restoration restoration) =>
        WallTranslucency.OfWall(restoration, restoration.Zones.Min(zone => zone.AvailableMm));
}
