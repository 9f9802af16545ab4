using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>A caution that belongs to a result and must be shown with it.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Text">The same in words for the reader of the result.</param>
public sealed record Caution(CautionKind Kind, string Text)
{
    internal static Caution Strength { get; } = new(
        CautionKind.StrengthNotAssessed,
        "Masking is not strength: the minimum thickness for strength (ISO 6872 class, instructions for use of the material) is decided by licensed practice and local rules.");

    internal static Caution ToothReduction { get; } = new(
        CautionKind.ToothReduction,
        "How much tooth may be removed to make room is decided by licensed practice and local rules, never by colour alone.");

    internal static Caution StructuralMinimum(double structuralMm) => new(
        CautionKind.StructuralMinimumGoverns, $"The structural minimum of {Guard.Text(structuralMm)} mm is above the optical one and governs.");

    internal static IEnumerable<Caution> OfShortSpectra(IEnumerable<WeightingTable> tables)
    {
        double held = tables.Max(table => table.HeldFraction);
        if (held > 0)
        {
            yield return new Caution(
                CautionKind.ShortSpectrum,
                FormattableString.Invariant($"Spectra end before 380 or 780 nm; end values were held, for up to {100 * held:0.0} % of a tristimulus value."));
        }
    }

    internal static IEnumerable<Caution> OfEstimates(
        IEnumerable<Substrate> substrates, IEnumerable<MaskingReference> references, IReadOnlyList<Colorimeter> colorimeters)
    {
        foreach (Substrate estimated in substrates.Where(substrate => substrate.IsEstimated).Distinct())
        {
            yield return new Caution(
                CautionKind.EstimatedSpectrum,
                $"'{estimated.Name}' is known by its colour only; its smoothest spectrum was used, and the real one differs.");
        }

        foreach (string name in references.Where(reference => reference.IsEstimatedUnder(colorimeters)).Select(reference => reference.Name).Distinct())
        {
            yield return new Caution(
                CautionKind.EstimatedSpectrum,
                $"'{name}' is known as L*a*b* only; under other illuminants its smoothest spectrum was used, and metamers of it differ.");
        }
    }
}
