using CeramicOptics.Characterization;

namespace CeramicOptics.Decisions.Discs;

/// <summary>A disc that could be made and measured, and how certain the answer would be with it.</summary>
public sealed class PlannedDisc : Formattable
{
    private readonly DiscGoal _goal;

    internal PlannedDisc(
        DiscGoal goal, double thicknessMm, IReadOnlyList<Backing> backings, double fromMaterial, double fromOthers)
    {
        (_goal, ThicknessMm, Backings, FromMaterial) = (goal, thicknessMm, backings, fromMaterial);
        StandardUncertainty = Math.Sqrt((fromMaterial * fromMaterial) + (fromOthers * fromOthers));
    }

    /// <summary>Thickness of the disc, mm.</summary>
    public double ThicknessMm { get; }

    /// <summary>The backings over which it is to be read.</summary>
    public IReadOnlyList<Backing> Backings { get; }

    /// <summary>
    /// Expected standard uncertainty of the answer once this disc is read and all readings are fitted together: mm for
    /// a thickness, units of the criterion's formula for a difference.
    /// </summary>
    public double StandardUncertainty { get; }

    /// <summary>The part of it that comes from K and S of the disc's material; in the same unit.</summary>
    public double FromMaterial { get; }

    /// <summary>Thickness, backings and expected uncertainty.</summary>
    private protected override string InWords(Language language)
    {
        string backings = language.Join(", ", Backings.Select(backing => language.NameOf(backing.Substrate.Name)));
        return language.Text($"PlannedDisc.{_goal}", ThicknessMm, backings, StandardUncertainty, FromMaterial);
    }
}
