namespace CeramicOptics.Restorations;

/// <summary>What strength requires where veneer and core vary independently.</summary>
/// <param name="CoreMm">Smallest core, mm; null when not given.</param>
/// <param name="WallMm">Smallest core and veneer together, mm; null when not given.</param>
internal readonly record struct CoreStrength(double? CoreMm, double? WallMm)
{
    /// <summary>Smallest core under a veneer, mm, 0 or more; null when neither limit was given.</summary>
    public double? MinimumCoreMm(double veneerMm) =>
        WallMm is double wallMm ? Math.Max(CoreMm ?? 0, Math.Max(0, wallMm - veneerMm)) : CoreMm;
}
