using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>Colours of a wall and of its masking reference over thickness; references only where they move.</summary>
internal sealed record WallCurves(ColorCurve Colors, ColorCurve? References)
{
    /// <summary>The wall over the stump with its reading shifted.</summary>
    public static WallCurves OfStump(ZoneComparison zone, double shift) =>
        new(ColorCurve.Of(zone.Axis, zone.Response.AtNodes(zone.Zone.Stump.Shifted(shift)), zone.Tables), null);

    /// <summary>Slopes by the quantity that the neighbours move, of wall and reference.</summary>
    public static WallCurves Of(ZoneComparison zone, WallNeighbour wall, WallNeighbour reference) => new(
        ColorCurve.Of(wall.Axis, wall.SlopesOver(zone.Zone.Stump), zone.Tables),
        zone.Targets is null ? ColorCurve.Of(reference.Axis, ReferenceSlopes(zone, reference), zone.Tables) : null);

    public void Evaluate(double x, Span<double> colors, Span<double> references)
    {
        Colors.Evaluate(x, colors);
        References?.Evaluate(x, references);
    }

    /// <summary>
    /// Slopes by K, at a position among the neighbours, and by S, at the next: of the wall, then of its reference.
    /// </summary>
    public static double[][] CoefficientSlopes(ZoneComparison zone, int at) =>
    [
        zone.Neighbours[at].SlopesOver(zone.Zone.Stump), zone.Neighbours[at + 1].SlopesOver(zone.Zone.Stump),
        ReferenceSlopes(zone, zone.ReferenceNeighbours[at]), ReferenceSlopes(zone, zone.ReferenceNeighbours[at + 1]),
    ];

    // Slopes of the masking reference; empty for a target, which stays.
    private static double[] ReferenceSlopes(ZoneComparison zone, WallNeighbour neighbour) =>
        zone.Targets is not null ? []
            : ((MaskingReference)zone.Zone.Reference).Substrate is { } good
            ? neighbour.SlopesOver(good)
            : neighbour.InfiniteSlopes(zone.Wall.Core);
}
