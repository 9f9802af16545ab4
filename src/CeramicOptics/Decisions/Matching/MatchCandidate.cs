using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>One way to make the restoration, judged against the targets of all zones.</summary>
public sealed class MatchCandidate : Formattable
{
    internal MatchCandidate(Restoration asked, IReadOnlyList<LimitingCase> atWalls)
    {
        Zones = Guard.Copy(asked.Zones.Zip(atWalls, (zone, atWall) => new ZoneMatch(zone, atWall)));
        Restoration = asked.WithZones(Zones.Select(zone => zone.Zone.WithWall(zone.WallMm)));
    }

    /// <summary>
    /// The restoration made in this way: core, veneer and cement chosen, every zone with its wall as available
    /// thickness.
    /// </summary>
    public Restoration Restoration { get; }

    /// <summary>One outcome for each zone, in their order.</summary>
    public IReadOnlyList<ZoneMatch> Zones { get; }

    /// <summary>The zone with the largest difference.</summary>
    public ZoneMatch Limiting => Zones.OrderByDescending(zone => zone.Difference).First();

    /// <summary>Largest difference over zones and illuminants.</summary>
    public double WorstDifference => Zones.Max(zone => zone.Difference);

    /// <summary>
    /// Mean over zones, by their weights, of each zone's largest difference; the plain mean where all weights are 0.
    /// </summary>
    public double MeanDifference => Zone.WeightedMean(Zones.Select(zone => (zone.Zone, zone.Difference)));

    /// <summary>True when every zone meets the criterion under every illuminant.</summary>
    public bool Meets => WorstDifference <= Restoration.Criterion.Limit;

    /// <summary>
    /// TP00 of core, veneer and any liner alone in the thinnest zone, over ideal black and white, D65 and 2 degrees;
    /// computed when read.
    /// </summary>
    public double Translucency => WallTranslucency.OfWall(Restoration, ThinnestMm);

    /// <summary>
    /// Which zone limits and what is wrong there, such as "zone 'cervical' under illuminant D65, 2° observer: too dark
    /// by 2.1 (dL' -3.0, dC' +0.4, dH' +0.1)".
    /// </summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string Explain(IFormatProvider? provider = null)
    {
        LimitingCase worst = Limiting.AtWall;
        return Language.Of(provider).Text(
            "MatchCandidate.Explanation", Limiting.Zone.Name, worst.Colorimeter, worst.Shift, worst.Terms);
    }

    /// <summary>
    /// What it is made of, such as "Granary, grade 3 under enamel veneer, 30 % of the wall, with light cement".
    /// </summary>
    private protected override string InWords(Language language) => MadeOf(Restoration, language);

    /// <summary>One line for each of several candidates, or that there is none.</summary>
    internal static string Lines(
        Language language, IReadOnlyList<MatchCandidate> candidates, Func<MatchCandidate, string> line) =>
        candidates.Count == 0
            ? language.Text("MatchRanking.None")
            : string.Join("\n", candidates.Select(line));

    /// <summary>The candidate, its difference and the limit.</summary>
    internal string AgainstLimit(Language language) =>
        language.Text("MatchRanking.Candidate", this, WorstDifference, Restoration.Criterion.Limit);

    internal double ThinnestMm => Zones.Min(zone => zone.WallMm);

    internal static string MadeOf(Restoration made, Language language)
    {
        string wall = made.Veneer is Veneer veneer
            ? language.Text("MatchCandidate.Veneered", made.Core, veneer)
            : made.Core.ToString(language);
        return made.Cement is Layer cement
            ? language.Text("MatchCandidate.Cemented", wall, cement.Material.Name)
            : language.Text("MatchCandidate.Coupled", wall, made.Coupling);
    }
}
