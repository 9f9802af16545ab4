using CeramicOptics.Restorations;
using static System.FormattableString;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How one ceramic masks in all zones.</summary>
public sealed class GradeAssessment
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

    /// <summary>For example "Granary, grade 3: masks reliably, TP00 4.2".</summary>
    public override string ToString() =>
        Invariant($"{Ceramic}: {(Masking.IsReliable ? "masks reliably" : "does not mask reliably")}, TP00 ")
            + Invariant($"{DiscTranslucency:0.0}");
}
