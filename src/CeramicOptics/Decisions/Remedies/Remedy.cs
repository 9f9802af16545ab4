using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>A change that would bring a candidate closer to its target.</summary>
public sealed class Remedy : Formattable
{
    internal Remedy(RemedyKind kind, Restoration before, Restoration after, Zone? zone, double differenceBefore,
        double differenceAfter, IEnumerable<Caution> cautions)
    {
        (Kind, Before, Restoration, Zone) = (kind, before, after, zone);
        (DifferenceBefore, DifferenceAfter, Cautions) = (differenceBefore, differenceAfter, Guard.Copy(cautions));
    }

    /// <summary>What is changed.</summary>
    public RemedyKind Kind { get; }

    /// <summary>The restoration before the change: its present walls, ceramic, cement and stump.</summary>
    internal Restoration Before { get; }

    /// <summary>The restoration with this one change, every zone with its wall as available thickness.</summary>
    public Restoration Restoration { get; }

    /// <summary>The zone that is changed; null where the change concerns all zones.</summary>
    public Zone? Zone { get; }

    /// <summary>The new wall of the zone, mm; null unless the wall is changed.</summary>
    public double? WallMm => Kind == RemedyKind.Thickness ? Changed.AvailableMm : null;

    /// <summary>The built-up stump; null unless there is one.</summary>
    internal Substrate? BuildUp => Kind == RemedyKind.StumpBuildUp ? Changed.Stump : null;

    /// <summary>Largest difference of all zones before.</summary>
    public double DifferenceBefore { get; }

    /// <summary>Largest difference of all zones afterwards.</summary>
    public double DifferenceAfter { get; }

    /// <summary>True when <see cref="DifferenceAfter"/> is within the criterion, by the prediction alone.</summary>
    public bool Meets => DifferenceAfter <= Restoration.Criterion.Limit;

    /// <summary>Cautions that must be shown with it.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The change in words, such as "grade 3 instead of grade 1: difference 2.4 becomes 1.1".</summary>
    private protected override string InWords(Language language) =>
        language.Text("Remedy", Change(language), DifferenceBefore, DifferenceAfter);

    private Zone Changed => Restoration.Zones.First(zone => zone.Name == Zone!.Name);

    private string Change(Language language) => Kind switch
    {
        RemedyKind.Thickness => language.Text(
            Changed.AvailableMm > Zone!.AvailableMm ? "Remedy.Thicker" : "Remedy.Thinner",
            Math.Abs(Changed.AvailableMm - Zone.AvailableMm), Zone.Name, Changed.AvailableMm),
        RemedyKind.Grade => language.Text("Remedy.Grade", Restoration.Core.Grade, Before.Core.Grade),
        RemedyKind.Cement => Before.Cement is null
            ? language.Text("Remedy.Bonding", Restoration.Cement!.Material.Name, Before.Coupling!.Name)
            : language.Text("Remedy.Cement", Restoration.Cement, Before.Cement),
        RemedyKind.BlockingLiner => language.Text(
            "Remedy.BlockingLiner", Restoration.Liner!.ThicknessMm, Restoration.Liner.Material.Name),
        _ => language.Text("Remedy.StumpBuildUp", Changed.Stump.Name, Zone!.Name),
    };
}
