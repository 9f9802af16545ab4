using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Feasibility;

/// <summary>A colour that can be made over a stump, with its recipe.</summary>
public sealed class ReachablePoint : Formattable
{
    private readonly Restoration _choice;

    internal ReachablePoint(Restoration choice, double wallMm, Lab color, double difference) =>
        (_choice, WallMm, Color, Difference) = (choice, wallMm, color, difference);

    /// <summary>The colour under the first colorimeter of the viewing conditions.</summary>
    public Lab Color { get; }

    /// <summary>Largest difference to the wish over illuminants, by the criterion's formula.</summary>
    public double Difference { get; }

    /// <summary>Thickness of the wall, core and veneer together, mm.</summary>
    public double WallMm { get; }

    /// <summary>The restoration of this one zone made in this way, with this wall as available thickness.</summary>
    public Restoration Restoration => _choice.WithZones(_choice.Zones.Select(zone => zone.WithWall(WallMm)));

    /// <summary>The recipe in words, such as "0.90 mm of Granary, grade 3 with light cement".</summary>
    private protected override string InWords(Language language) =>
        language.Text("ReachablePoint", WallMm, MatchCandidate.MadeOf(_choice, language));
}
