using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick a wall must be at least: by colour, reliably, for strength, and in conclusion.</summary>
/// <remarks>
/// Thicker than <see cref="ByColorMm"/> is masked too where the reference is a <see cref="MaskingReference"/>, up to
/// the end of the range. A wall can be too thick for a target: then the thicknesses are those of the thinnest range of
/// walls that meets it reliably and with the strength asked for, wherever the range of the wall ends, and
/// <see cref="ByColorUpToMm"/> and <see cref="ReliableUpToMm"/> say how far they hold. Text rounds thicknesses up to
/// 0.01 mm, so that the thickness shown is enough.
/// </remarks>
public sealed record MinimumThickness : IFormattable
{
    internal MinimumThickness(
        double? byColorMm, double? reliableMm, double? structuralMm, double maximumMm, double share,
        double? uncertaintyMm, double? byColorUpToMm = null, double? reliableUpToMm = null)
    {
        (ByColorUpToMm, ReliableUpToMm) = (byColorUpToMm, reliableUpToMm);
        (ByColorMm, ReliableMm, StructuralMm, Share, StandardUncertaintyMm) = (
            byColorMm, reliableMm, structuralMm, share, uncertaintyMm);
        double? larger = reliableMm is double reliable && structuralMm is double structural
            ? Math.Max(reliable, structural)
            : null;
        bool isTooThick = larger is double mm && Guard.RoundedUp(mm) > reliableUpToMm;
        RecommendedMm = larger <= maximumMm && !isTooThick ? larger : null;
    }

    /// <summary>
    /// Smallest thickness of the range from which on the prediction meets the criterion up to its end, for a target up
    /// to <see cref="ByColorUpToMm"/>, mm; the start of the range where it is met from there on, null when it is not
    /// met.
    /// </summary>
    /// <remarks>
    /// Half of all pieces made this way would show the stump: use it for comparisons, not to make a restoration.
    /// </remarks>
    public double? ByColorMm { get; }

    /// <summary>
    /// Smallest nominal thickness from which on the stated share of pieces meets the criterion, with every input
    /// uncertain, mm; null when none does.
    /// </summary>
    public double? ReliableMm { get; }

    /// <summary>
    /// For a target, the thickness up to which the prediction meets it from <see cref="ByColorMm"/> on, mm, the end of
    /// the range at most; null for a masking reference, and when the criterion is not met.
    /// </summary>
    public double? ByColorUpToMm { get; }

    /// <summary>
    /// For a target, the nominal thickness up to which the stated share of pieces meets it from
    /// <see cref="ReliableMm"/> on, mm; null for a masking reference, and when none does.
    /// </summary>
    public double? ReliableUpToMm { get; }

    /// <summary>Smallest wall that strength allows, as given by the caller, mm; null when not given.</summary>
    public double? StructuralMm { get; }

    /// <summary>
    /// The larger of <see cref="ReliableMm"/> and <see cref="StructuralMm"/>, mm; null when either is null or it is
    /// above the range or, rounded up to 0.01 mm, above <see cref="ReliableUpToMm"/>.
    /// </summary>
    public double? RecommendedMm { get; }

    /// <summary>Share of pieces that mask from <see cref="ReliableMm"/> on, 0.5 to 0.999.</summary>
    public double Share { get; }

    /// <summary>
    /// Standard uncertainty of <see cref="ByColorMm"/>, mm, first order, from all inputs; null where it is masked
    /// throughout or not at all.
    /// </summary>
    public double? StandardUncertaintyMm { get; }

    /// <summary>True when the thicknesses up to which a target is met are not below those from which it is.</summary>
    internal bool IsOrdered => !(ReliableUpToMm < ReliableMm) && !(ByColorUpToMm < (ReliableUpToMm ?? ByColorMm))
        && (ReliableUpToMm is null) == (ReliableMm is null || ByColorUpToMm is null);

    /// <summary>A thickness rounded up to 0.01 mm, as text shows it.</summary>
    /// <param name="thicknessMm">Thickness, mm.</param>
    public static double RoundedUp(double thicknessMm) => Guard.RoundedUp(thicknessMm);

    /// <summary>
    /// For example "at least 1.54 mm (by colour 1.39, reliable for 95 % of pieces 1.54, strength 0.80)".
    /// </summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        return Words(language, RecommendedMm is double mm
            ? language.Text("MinimumThickness.Needed", mm)
            : language.Text("MinimumThickness.NoneSuggested"));
    }

    /// <summary>
    /// By how much an available thickness is too thin to be reliable and strong enough, mm; 0 where it is thick enough,
    /// or where no wall of the range is reliable and strength allows it.
    /// </summary>
    internal double LackingMm(double availableMm)
    {
        double? neededMm = StructuralMm is null ? ReliableMm : RecommendedMm;
        return neededMm is double mm && mm - availableMm > DecisionGuard.RoundingMm ? mm - availableMm : 0;
    }

    /// <summary>
    /// The same beside an available thickness: only what fits is suggested; what does not fit says so first, and by
    /// how much.
    /// </summary>
    internal string InRoom(Language language, double availableMm)
    {
        double lackingMm = LackingMm(availableMm);
        return Words(language, lackingMm > 0
            ? language.Text("MinimumThickness.DoesNotFit", lackingMm, availableMm + lackingMm)
            : RecommendedMm is double mm
            ? language.Text("MinimumThickness.Suggested", mm)
            : language.Text("MinimumThickness.NoneSuggested"));
    }

    private string Words(Language language, string lead)
    {
        return language.Text(
            "MinimumThickness", lead, Part(ByColorMm, "None"), Share, Part(ReliableMm, "None"),
            Part(StructuralMm, "NotGiven"));

        string Part(double? thicknessMm, string none) => thicknessMm is double value
            ? language.Text("MinimumThickness.Value", value)
            : language.Text($"MinimumThickness.{none}");
    }
}
