namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick a wall must be at least: by colour, reliably, for strength, and what follows.</summary>
/// <remarks>Text rounds thicknesses up to 0.01 mm, so that the thickness shown is enough.</remarks>
public sealed record MinimumThickness : IFormattable
{
    internal MinimumThickness(
        double? byColorMm, double? reliableMm, double? structuralMm, double maximumMm, double share,
        double? uncertaintyMm)
    {
        (ByColorMm, ReliableMm, StructuralMm, Share, StandardUncertaintyMm) = (
            byColorMm, reliableMm, structuralMm, share, uncertaintyMm);
        double? larger = reliableMm is double reliable && structuralMm is double structural
            ? Math.Max(reliable, structural)
            : null;
        RecommendedMm = larger <= maximumMm ? larger : null;
    }

    /// <summary>
    /// Smallest thickness of the range from which on the prediction meets the criterion up to its end, mm; the start of
    /// the range where it is met throughout, null when it is not met.
    /// </summary>
    /// <remarks>Half of all pieces made so would show the stump: a number for comparisons, not for work.</remarks>
    public double? ByColorMm { get; }

    /// <summary>
    /// Smallest nominal thickness from which on the stated share of pieces meets the criterion, with every input
    /// uncertain, mm; null when none does.
    /// </summary>
    public double? ReliableMm { get; }

    /// <summary>Smallest wall that strength allows, as given by the caller, mm; null when not given.</summary>
    public double? StructuralMm { get; }

    /// <summary>
    /// The larger of <see cref="ReliableMm"/> and <see cref="StructuralMm"/>, mm; null when either is null or it is
    /// above the range.
    /// </summary>
    public double? RecommendedMm { get; }

    /// <summary>Share of pieces that <see cref="ReliableMm"/> stands for, 0.5 to 0.999.</summary>
    public double Share { get; }

    /// <summary>
    /// Standard uncertainty of <see cref="ByColorMm"/>, mm, first order, from all inputs; null where it is masked
    /// throughout or not at all.
    /// </summary>
    public double? StandardUncertaintyMm { get; }

    /// <summary>A thickness rounded up to 0.01 mm, as text shows it.</summary>
    /// <param name="thicknessMm">Thickness, mm.</param>
    public static double RoundedUp(double thicknessMm) => Guard.RoundedUp(thicknessMm);

    /// <summary>
    /// For example "1.54 mm suggested for review (by colour 1.39, reliable for 95 % of pieces 1.54, strength 0.80)".
    /// </summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        string suggested = RecommendedMm is double mm
            ? language.Text("MinimumThickness.Suggested", mm)
            : language.Text("MinimumThickness.NoneSuggested");
        return language.Text(
            "MinimumThickness", suggested, Words(ByColorMm, "None"), Share, Words(ReliableMm, "None"),
            Words(StructuralMm, "NotGiven"));

        string Words(double? thicknessMm, string none) => thicknessMm is double value
            ? language.Text("MinimumThickness.Value", value)
            : language.Text($"MinimumThickness.{none}");
    }

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
