using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using static System.FormattableString;

namespace CeramicOptics.Decisions.Remedies;

/// <summary>A change that would bring a candidate nearer to its target.</summary>
public sealed class Remedy
{
    private readonly Restoration _before;

    internal Remedy(RemedyKind kind, Restoration before, Restoration after, Zone? zone, double differenceBefore,
        double differenceAfter, IEnumerable<Caution> cautions)
    {
        (Kind, _before, Restoration, Zone) = (kind, before, after, zone);
        (DifferenceBefore, DifferenceAfter, Cautions) = (differenceBefore, differenceAfter, Guard.Copy(cautions));
    }

    /// <summary>What is changed.</summary>
    public RemedyKind Kind { get; }

    /// <summary>The restoration with this one change, every zone with its wall as available thickness.</summary>
    public Restoration Restoration { get; }

    /// <summary>
    /// The zone that is changed and that the differences are of; null where the change concerns all zones.
    /// </summary>
    public Zone? Zone { get; }

    /// <summary>The new wall of the zone, mm; null unless the wall is changed.</summary>
    public double? WallMm => Kind == RemedyKind.Thickness ? Changed.AvailableMm : null;

    /// <summary>The other ceramic; null unless the grade is changed.</summary>
    public Ceramic? Core => Kind == RemedyKind.Grade ? Restoration.Core : null;

    /// <summary>The other cement; null unless the cement is changed.</summary>
    public Layer? Cement => Kind == RemedyKind.Cement ? Restoration.Cement : null;

    /// <summary>The liner with its thickness; null unless there is a new one.</summary>
    public Layer? Liner => Kind == RemedyKind.BlockingLiner ? Restoration.Liner : null;

    /// <summary>The built-up stump; null unless there is one.</summary>
    public Substrate? BuildUp => Kind == RemedyKind.StumpBuildUp ? Changed.Stump : null;

    /// <summary>Largest difference before: of the zone, or of all zones where the change concerns all.</summary>
    public double DifferenceBefore { get; }

    /// <summary>Largest difference afterwards, likewise.</summary>
    public double DifferenceAfter { get; }

    /// <summary>True when <see cref="DifferenceAfter"/> is within the criterion.</summary>
    public bool Meets => DifferenceAfter <= Restoration.Criterion.Limit;

    /// <summary>What must be shown with it.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The change in words, such as "grade 3 in place of grade 1: difference 2.4 becomes 1.1".</summary>
    public override string ToString() =>
        Invariant($"{Change}: difference {DifferenceBefore:0.0} becomes {DifferenceAfter:0.0}");

    private Zone Changed => Restoration.Zones.First(zone => zone.Name == Zone!.Name);

    private string Change => Kind switch
    {
        RemedyKind.Thickness =>
            Invariant($"a wall {Math.Abs(Changed.AvailableMm - Zone!.AvailableMm):0.00} mm ")
            + Invariant($"{(Changed.AvailableMm > Zone.AvailableMm ? "thicker" : "thinner")} in zone '{Zone}' ")
            + Invariant($"({Masking.MinimumThickness.RoundedUp(Changed.AvailableMm):0.00} mm)"),
        RemedyKind.Grade =>
            $"grade {Guard.Text(Restoration.Core.Grade)} in place of grade {Guard.Text(_before.Core.Grade)}",
        RemedyKind.Cement => _before.Cement is null
            ? $"{Restoration.Cement!.Material} in place of {_before.Coupling}"
            : $"{Restoration.Cement} in place of {_before.Cement}",
        RemedyKind.BlockingLiner =>
            Invariant($"{BlockingLinerResult.RoundedUp(Restoration.Liner!):0.000} mm of {Restoration.Liner!.Material} ")
            + "under the core",
        _ => $"{Changed.Stump} over the stump in zone '{Zone}'",
    };
}
