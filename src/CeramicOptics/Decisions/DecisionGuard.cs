using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions;

/// <summary>What decisions about matching require of a restoration.</summary>
internal static class DecisionGuard
{
    // Thicknesses that differ by less are the same: what is left after sums and shares of decimal numbers.
    public const double RoundingMm = 1e-12;

    /// <summary>True when strength allows a wall in a zone, or has no limit there.</summary>
    public static bool IsStrongEnough(Restoration restoration, Zone zone, double wallMm) =>
        IsStrongEnough(restoration.StructuralMinimumMm(zone), wallMm);

    /// <summary>True when a wall is not below the structural minimum, mm, or there is none.</summary>
    public static bool IsStrongEnough(double? structuralMinimumMm, double wallMm) =>
        !(structuralMinimumMm > wallMm + RoundingMm);

    /// <summary>
    /// The thinnest wall of a zone that strength and the range of the wall allow, mm; the available thickness where
    /// rounding alone makes it less.
    /// </summary>
    public static double ThinnestWallMm(Restoration restoration, Zone zone)
    {
        double least = Math.Max(
            restoration.WallOver(restoration.WallRange).Range.MinMm, restoration.StructuralMinimumMm(zone) ?? 0);
        return Math.Abs(least - zone.AvailableMm) <= RoundingMm ? zone.AvailableMm : least;
    }

    /// <summary>
    /// Ceramics that can be compared: each once, since answers name one by family and grade and cautions by material,
    /// and by one theory, or the theories' own errors would decide.
    /// </summary>
    /// <exception cref="ArgumentException">
    /// None, one given twice, or constants of different theories; names the two.
    /// </exception>
    public static IReadOnlyList<Ceramic> Comparable(IEnumerable<Ceramic> ceramics)
    {
        IReadOnlyList<Ceramic> each = EachOnce(Guard.Copy(ceramics, minimumCount: 1), nameof(ceramics));
        Ceramic first = each[0];
        return each.FirstOrDefault(item => !item.Material.Model.IsSameTheoryAs(first.Material.Model)) is { } other
            ? throw new ArgumentException(
                $"'{first}' has K and S of {first.Material.Model.Name} but '{other}' those of "
                    + $"{other.Material.Model.Name}; Recalibration.Find turns the one into the other.",
                nameof(ceramics))
            : each;
    }

    /// <summary>No two of one family and grade, nor of one name of the material.</summary>
    public static IReadOnlyList<Ceramic> EachOnce(IReadOnlyList<Ceramic> ceramics, string name) => Guard.EachOnce(
        Guard.EachOnce(ceramics, ceramic => ceramic.ToString(), name),
        ceramic => $"made of {ceramic.Material.Name}", name);

    /// <summary>No two films of one name and thickness.</summary>
    public static IReadOnlyList<Layer> EachOnce(IReadOnlyList<Layer> films, string name) =>
        Guard.EachOnce(films, film => $"{Guard.Text(film.ThicknessMm)} mm of {film.Material.Name}", name);

    /// <summary>Every zone is compared with a target.</summary>
    /// <exception cref="ArgumentException">A zone is not; names it and its reference.</exception>
    public static void RequireTargets(Restoration restoration)
    {
        foreach (Zone zone in Guard.NotNull(restoration).Zones)
        {
            if (zone.Reference is not Target)
            {
                throw new ArgumentException(
                    $"Zone '{zone.Name}' is compared with {zone.Reference}, which is not a target colour.",
                    nameof(restoration));
            }
        }
    }
}
