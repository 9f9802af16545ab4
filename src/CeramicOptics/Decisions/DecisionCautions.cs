using CeramicOptics.Colorimetry;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions;

/// <summary>Cautions that decisions about whole restorations share.</summary>
internal static class DecisionCautions
{
    /// <summary>
    /// Cautions of every result about a restoration at its available thickness, with the zones whose room is below the
    /// structural minimum.
    /// </summary>
    public static IReadOnlyList<Caution> Of(Restoration restoration) =>
        Guard.Copy(Caution.Of(restoration, TablesOf(restoration)).Concat(OfRoom(restoration)).Distinct());

    /// <summary>
    /// Cautions of a result that offers several ways to make a restoration, with the number of those left out because
    /// strength leaves them no room.
    /// </summary>
    public static IReadOnlyList<Caution> Of(IEnumerable<Restoration> offered, int tooThin)
    {
        IEnumerable<Caution> room =
            tooThin > 0 ? [new Caution(CautionKind.BelowStructuralMinimum, value: tooThin)] : [];
        return Guard.Copy(
            offered.SelectMany(made => Caution.Of(made, TablesOf(made))).Concat(room).Distinct());
    }

    private static IEnumerable<Caution> OfRoom(Restoration restoration) => restoration.Zones
        .Where(zone => !DecisionGuard.IsStrongEnough(restoration, zone, zone.AvailableMm))
        .Select(zone =>
            new Caution(CautionKind.BelowStructuralMinimum, zone.Name, restoration.StructuralMinimumMm(zone)));

    private static IReadOnlyList<WeightingTable> TablesOf(Restoration restoration) =>
        [.. restoration.Viewing.Colorimeters.Select(colorimeter =>
            colorimeter.Weighting(restoration.Core.Material.Grid))];
}
