using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How one ceramic masks in all zones.</summary>
public sealed class GradeAssessment : Formattable
{
    internal GradeAssessment(Ceramic ceramic, MaskingResult masking, double translucency) =>
        (Ceramic, Masking, DiscTranslucency) = (ceramic, masking, translucency);

    /// <summary>The ceramic.</summary>
    public Ceramic Ceramic { get; }

    /// <summary>The masking answers of its zones.</summary>
    public MaskingResult Masking { get; }

    /// <summary>
    /// TP00 of a free disc as thick as the thinnest zone, over ideal black and white in optical contact, D65 and 2
    /// degrees.
    /// </summary>
    public double DiscTranslucency { get; }

    /// <summary>
    /// For example "Granary, grade 3: masks reliably (95 % of pieces), smallest probability 0.975 ± 0.003, smallest
    /// margin +0.06 mm, TP00 4.2".
    /// </summary>
    private protected override string InWords(Language language)
    {
        double? marginMm = Masking.Zones.All(zone => zone.MarginMm is not null)
            ? Masking.Zones.Min(zone => zone.MarginMm)
            : null;
        double lackingMm = Masking.Zones.Max(zone => zone.Minimum.LackingMm(zone.Zone.AvailableMm));
        string room = lackingMm > 0 ? language.Text("GradeAssessment.DoesNotFit", lackingMm)
            : marginMm is double mm ? language.Text("GradeAssessment.Margin", mm)
            : "";
        return language.Text(
            Masking.IsReliable ? "GradeAssessment.Reliable" : "GradeAssessment.NotReliable", Ceramic,
            Masking.Zones[0].Minimum.Share,
            Masking.Zones.OrderBy(zone => zone.MasksAtAvailable.Value).First().MasksAtAvailable, room,
            DiscTranslucency);
    }
}
