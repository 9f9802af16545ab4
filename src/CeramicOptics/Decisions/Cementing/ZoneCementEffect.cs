using CeramicOptics.Colorimetry;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Cementing;

/// <summary>What one cement does to the colour of one zone at its available thickness.</summary>
public sealed class ZoneCementEffect : Formattable
{
    private readonly Lab _withFirst;

    internal ZoneCementEffect(Zone zone, LimitingCase atAvailable, IReadOnlyList<Lab> bonded,
        IReadOnlyList<Lab>? triedIn, double change, double? tryInGap, Lab withFirst)
    {
        (Zone, AtAvailable, Bonded, TriedIn, Change, TryInGap) = (zone, atAvailable, bonded, triedIn, change, tryInGap);
        _withFirst = withFirst;
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>The limiting light when bonded, against the reference of the zone.</summary>
    public LimitingCase AtAvailable { get; }

    /// <summary>Colour when bonded, one for each colorimeter of the viewing conditions.</summary>
    public IReadOnlyList<Lab> Bonded { get; }

    /// <summary>Colour with the paste, one for each colorimeter; null where there is no paste.</summary>
    public IReadOnlyList<Lab>? TriedIn { get; }

    /// <summary>
    /// Largest difference over illuminants, by the criterion's formula, from the first cement of the list to this one,
    /// both bonded.
    /// </summary>
    public double Change { get; }

    /// <summary>
    /// Change of colour from the first cement to this one, under the first colorimeter, such as "lighter by 1.2".
    /// </summary>
    public ColorShift Shift => new(_withFirst, Bonded[0], isFault: false);

    /// <summary>
    /// Largest difference over illuminants, by the criterion's formula, between try-in and bonded state; null where
    /// there is no paste.
    /// </summary>
    public double? TryInGap { get; }

    /// <summary>For example "cervical: difference 1.2, moved by 0.8 (lighter by 0.7), try-in off by 0.3".</summary>
    private protected override string InWords(Language language)
    {
        string tryIn = TryInGap is double gap ? language.Text("ZoneCementEffect.TryIn", gap) : "";
        return language.Text("ZoneCementEffect", Zone.Name, AtAvailable.Difference, Change, Shift, tryIn);
    }
}
