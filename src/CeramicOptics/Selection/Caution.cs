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
}
