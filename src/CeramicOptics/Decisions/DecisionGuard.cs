using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions;

/// <summary>What decisions about matching ask of a restoration.</summary>
internal static class DecisionGuard
{
    /// <summary>Every zone is compared with a target.</summary>
    /// <exception cref="ArgumentException">A zone is not; names it and its reference.</exception>
    public static void RequireTargets(Restoration restoration)
    {
        foreach (Zone zone in Guard.NotNull(restoration).Zones)
        {
            if (zone.Reference is not Target)
            {
                throw new ArgumentException($"Zone '{zone.Name}' is compared with {zone.Reference}, which is not a target colour.", nameof(restoration));
            }
        }
    }
}
