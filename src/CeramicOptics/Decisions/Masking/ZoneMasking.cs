using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick the wall of one zone must be so that the stump does not show.</summary>
public sealed class ZoneMasking : Formattable
{
    internal ZoneMasking(
        Zone zone,
        MaskingOutcome outcome,
        MinimumThickness minimum,
        LimitingCase limiting,
        LimitingCase best,
        LimitingCase atAvailable,
        double standardUncertainty,
        Probability masksAtAvailable,
        IEnumerable<Crossing> crossings,
        ThicknessRange wallRange)
    {
        (Zone, Outcome, Minimum, Limiting, Best, AtAvailable) = (zone, outcome, minimum, limiting, best, atAvailable);
        (StandardUncertainty, MasksAtAvailable, WallRange) = (standardUncertainty, masksAtAvailable, wallRange);
        Crossings = Guard.Copy(crossings);
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>Whether and where the stump is masked, by the prediction alone.</summary>
    public MaskingOutcome Outcome { get; }

    /// <summary>The thicknesses: by colour, reliable, structural, recommended.</summary>
    public MinimumThickness Minimum { get; }

    /// <summary>
    /// The limiting light: at the thickness by colour, or at the largest of the range when not masked.
    /// </summary>
    public LimitingCase Limiting { get; }

    /// <summary>The smallest difference in the range (to 0.01), and where it is reached.</summary>
    public LimitingCase Best { get; }

    /// <summary>The difference at the available thickness.</summary>
    public LimitingCase AtAvailable { get; }

    /// <summary>
    /// Standard uncertainty of the difference at <see cref="AtAvailable"/>, of its distribution, from all inputs.
    /// </summary>
    public double StandardUncertainty { get; }

    /// <summary>Probability that a piece of the available thickness masks.</summary>
    public Probability MasksAtAvailable { get; }

    /// <summary>Every thickness of the range at which the largest difference passes the limit, rising.</summary>
    public IReadOnlyList<Crossing> Crossings { get; }

    /// <summary>Thicknesses of the wall that were considered.</summary>
    internal ThicknessRange WallRange { get; }

    /// <summary>
    /// Available thickness minus the recommended minimum, mm; for a target the smaller of this and the distance to the
    /// thickness up to which it is met reliably; negative when too thin or too thick, null when no thickness is
    /// recommended.
    /// </summary>
    public double? MarginMm => MarginFrom(Minimum.RecommendedMm);

    /// <summary>
    /// True when the stated share of pieces of the available thickness masks, and a strength limit that was given
    /// allows it.
    /// </summary>
    public bool IsReliable => ReliableMarginMm >= 0
        && DecisionGuard.IsStrongEnough(Minimum.StructuralMm, Zone.AvailableMm);

    /// <summary>The same margin from the reliable thickness.</summary>
    internal double? ReliableMarginMm => MarginFrom(Minimum.ReliableMm);

    /// <summary>Thicknesses at which the prediction meets the criterion, rising.</summary>
    internal IReadOnlyList<ThicknessRange> MaskedRanges =>
        CurveSearch.MaskedRanges(Crossings, WallRange, Outcome == MaskingOutcome.MaskedThroughout);

    /// <summary>
    /// For example "cervical: 1.54 mm suggested for review (by colour 1.39, ...); 1.6 mm available, margin +0.06 mm,
    /// masks there with probability 0.975 ± 0.003". A wall above the available thickness is not suggested; the text
    /// then begins "cervical: does not fit, 0.14 mm too little room".
    /// </summary>
    private protected override string InWords(Language language)
    {
        string margin = MarginMm is double mm && Minimum.LackingMm(Zone.AvailableMm) == 0
            ? language.Text("ZoneMasking.Margin", mm)
            : "";
        return language.Text(
            "ZoneMasking", Zone.Name, Minimum.InRoom(language, Zone.AvailableMm), Zone.AvailableMm, margin,
            MasksAtAvailable);
    }

    private double? MarginFrom(double? smallestMm)
    {
        double? above = Zone.AvailableMm - smallestMm, below = Minimum.ReliableUpToMm - Zone.AvailableMm;
        return below < above ? below : above;
    }
}
