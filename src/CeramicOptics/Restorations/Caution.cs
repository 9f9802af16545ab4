using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using static System.FormattableString;

namespace CeramicOptics.Restorations;

/// <summary>A caution that belongs to a result and must be shown with it.</summary>
/// <remarks>Made by the library only; equal by value.</remarks>
public sealed record Caution
{
    internal Caution(CautionKind kind, string? subject = null, double? value = null) =>
        (Kind, Subject, Value) = (kind, subject, value);

    /// <summary>What it is about.</summary>
    public CautionKind Kind { get; }

    /// <summary>Name of the material, zone, stump or reference it concerns; null where it concerns all.</summary>
    public string? Subject { get; }

    /// <summary>
    /// The number it states: mm for strength, a share 0 to 1 for reliability and held spectra, a count of choices left
    /// out, L*a*b* units for theory; null for none.
    /// </summary>
    public double? Value { get; }

    /// <summary>The same in words for the reader of the result.</summary>
    public string Text => Kind switch
    {
        CautionKind.StrengthNotAssessed =>
            "Masking is not strength: the minimum thickness for strength (ISO 6872 class, instructions for use of "
                + "the material) is decided by licensed practice and local rules.",
        CautionKind.StrengthLimitNotGiven =>
            $"No strength limit was given for {Subject}, so no thickness is recommended; the thicknesses shown are "
                + "about colour alone.",
        CautionKind.StructuralMinimumGoverns =>
            Invariant($"The structural minimum of {Guard.RoundedUp(Value!.Value):0.00} mm in zone '{Subject}' is ")
                + "above what colour asks, and governs.",
        CautionKind.BelowStructuralMinimum => Subject is null
            ? Invariant(
                $"{Value:0} choice(s) were left out because a zone has no room for the wall that strength asks.")
            : Invariant($"Zone '{Subject}' has less room than the structural minimum of ")
                + Invariant($"{Guard.RoundedUp(Value!.Value):0.00} mm; a wall that fits is too weak by the ")
                + "limit given.",
        CautionKind.ToothReduction =>
            "How much tooth may be removed to make room is decided by licensed practice and local rules, never by "
                + "colour alone.",
        CautionKind.NotReliable =>
            Invariant($"No wall of the range masks zone '{Subject}' in {100 * Value:0.#} % of pieces, with all that ")
                + "is uncertain.",
        CautionKind.AboveRange =>
            Invariant($"The suggested wall of zone '{Subject}' is in places above {Value:0.00} mm, where its colour ")
                + "was not computed.",
        CautionKind.TwoFluxTheory =>
            Invariant($"Constants are of two-flux theory; its own error, about {Value:0.0} in each of L*, a*, b* and ")
                + "more for thin or clear layers, is included in the uncertainty.",
        CautionKind.EstimatedSpectrum =>
            $"'{Subject}' is known by its colour only; its smoothest spectrum was used where a spectrum was needed, "
                + "and the real one differs.",
        CautionKind.ShortSpectrum =>
            "Spectra end before the ends of the visible range; end values were held, for up to "
                + Invariant($"{100 * Value:0.0} % of a tristimulus value."),
        CautionKind.UncertaintyIncomplete =>
            $"The uncertainty of K and S of '{Subject}' is not known and not included.",
        _ => Kind.ToString(),
    };

    /// <inheritdoc/>
    public override string ToString() => Text;

    /// <summary>True when subject and value are there as far as the words need them.</summary>
    internal bool IsComplete => Kind switch
    {
        CautionKind.StructuralMinimumGoverns or CautionKind.NotReliable or CautionKind.AboveRange =>
            Subject is not null && Value is not null,
        CautionKind.BelowStructuralMinimum or CautionKind.TwoFluxTheory or CautionKind.ShortSpectrum =>
            Value is not null,
        CautionKind.StrengthLimitNotGiven or CautionKind.EstimatedSpectrum or CautionKind.UncertaintyIncomplete =>
            Subject is not null,
        _ => true,
    };

    internal static Caution Strength { get; } = new(CautionKind.StrengthNotAssessed);

    internal static Caution ToothReduction { get; } = new(CautionKind.ToothReduction);

    /// <summary>
    /// What every result about a restoration must say: strength, tooth, missing strength limits, theory, estimates,
    /// short spectra, unknown uncertainties.
    /// </summary>
    internal static IReadOnlyList<Caution> Of(Restoration restoration, IReadOnlyList<WeightingTable> tables)
    {
        List<Caution> cautions = [Strength, ToothReduction];
        if (restoration.Zones.Any(zone => restoration.StructuralMinimumMm(zone) is null))
        {
            cautions.Add(new Caution(CautionKind.StrengthLimitNotGiven, restoration.Core.ToString()));
        }

        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = restoration.LayersOf(restoration.WallRange.MaxMm);
        if (restoration.Core.Material.Model is TwoFluxModel theory)
        {
            cautions.Add(
                new Caution(CautionKind.TwoFluxTheory,
                value: restoration.Uncertainty.ModelColor ?? theory.ColorStandardUncertainty));
        }

        cautions.AddRange(restoration.Zones.Select(zone => zone.Stump)
            .Concat(
                restoration.Zones.Select(zone => (zone.Reference as MaskingReference)?.Substrate).OfType<Substrate>())
            .Where(stump => stump.IsEstimated)
            .Select(stump => new Caution(CautionKind.EstimatedSpectrum, stump.Name)));
        cautions.AddRange(restoration.Zones.Select(zone => zone.Reference).OfType<Target>()
            .Where(target => target.IsEstimatedUnder(restoration.Viewing.Colorimeters))
            .Select(target => new Caution(CautionKind.EstimatedSpectrum, target.Name)));
        double held = tables.Max(table => table.HeldFraction);
        if (held > 0)
        {
            cautions.Add(new Caution(CautionKind.ShortSpectrum, value: held));
        }

        cautions.AddRange(layers.Where(item => item.Layer.Material.Uncertainty is null)
            .Select(item => new Caution(CautionKind.UncertaintyIncomplete, item.Layer.Material.Name)));
        return Guard.Copy(cautions.Distinct());
    }
}
