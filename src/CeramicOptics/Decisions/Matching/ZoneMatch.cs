using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>One zone of a candidate: the wall chosen there, and how close it comes to the target.</summary>
public sealed class ZoneMatch : Formattable
{
    internal ZoneMatch(Zone zone, LimitingCase atWall) => (Zone, AtWall) = (zone, atWall);

    /// <summary>The zone as asked for, with its available thickness.</summary>
    public Zone Zone { get; }

    /// <summary>The limiting light at the wall chosen.</summary>
    public LimitingCase AtWall { get; }

    /// <summary>Thickness of the wall chosen, core and veneer together, mm.</summary>
    public double WallMm => AtWall.WallMm;

    /// <summary>Largest difference to the target over illuminants.</summary>
    public double Difference => AtWall.Difference;

    /// <summary>For example "cervical: 0.85 mm, difference 1.2".</summary>
    private protected override string InWords(Language language) =>
        language.Text("ZoneMatch", Zone.Name, WallMm, Difference);
}
