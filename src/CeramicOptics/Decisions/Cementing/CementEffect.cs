using CeramicOptics.Colorimetry;

namespace CeramicOptics.Selection;

/// <summary>What one cement does to the colour over one stump.</summary>
/// <param name="Option">The cement and its paste.</param>
/// <param name="Bonded">Colour when bonded, one for each colorimeter of the conditions.</param>
/// <param name="TriedIn">Colour with the paste, one for each colorimeter; null where there is no paste.</param>
/// <param name="Change">Largest CIEDE2000, over colorimeters, from the first cement of the list to this one, both bonded.</param>
/// <param name="ChangeInWords">What this cement does against the first, under the first colorimeter, such as "too light by 1.2".</param>
/// <param name="TryInGap">Largest CIEDE2000, over colorimeters, between try-in and bonded state; null where there is no paste.</param>
public sealed record CementEffect(
    CementOption Option, IReadOnlyList<Lab> Bonded, IReadOnlyList<Lab>? TriedIn, double Change, string ChangeInWords, double? TryInGap);
