using CeramicOptics.Colorimetry;
using CeramicOptics.Mapping;

namespace CeramicOptics.Exchange;

/// <summary>What a map says of each point, before it is written.</summary>
internal sealed class MapPointValues
{
    public const int MostPoints = 400_000;

    private const double LargestMm = 1e5;

    private MapPointValues(int count)
    {
        if (count > MostPoints)
        {
            throw new ArgumentException(
                $"{Guard.Text(count)} points are given but a file holds at most {Guard.Text(MostPoints)}; "
                    + "write parts of the map.");
        }

        (Statuses, Differences, Colors) = (new PointStatus[count], new double[count], new Lab[count]);
    }

    public PointStatus[] Statuses { get; }

    public double[] Differences { get; }

    public Lab[] Colors { get; }

    public IReadOnlyList<double> ThicknessesMm { get; private init; } = [];

    /// <summary>Those of the veneer, where <see cref="ThicknessesMm"/> are of the core; null without one.</summary>
    public IReadOnlyList<double>? VeneerMm { get; private init; }

    public IReadOnlyList<byte> Zones { get; private init; } = [];

    public IReadOnlyList<byte>? Stumps { get; private init; }

    public static MapPointValues Of(ThicknessMap map, ReadOnlySpan<double> thicknessesMm, ReadOnlySpan<byte> zones)
    {
        RequireFinite(thicknessesMm, nameof(thicknessesMm));
        MapPointValues points = new(thicknessesMm.Length)
        {
            ThicknessesMm = thicknessesMm.ToArray(), Zones = zones.ToArray(),
        };
        map.Statuses(thicknessesMm, points.Statuses, zones);
        map.Differences(thicknessesMm, points.Differences, zones);
        map.Colors(thicknessesMm, points.Colors, zones);
        return points;
    }

    public static MapPointValues Of(
        TwoLayerMap map, ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> coreMm, ReadOnlySpan<byte> zones)
    {
        RequireFinite(veneerMm, nameof(veneerMm));
        RequireFinite(coreMm, nameof(coreMm));
        MapPointValues points = new(coreMm.Length)
        {
            ThicknessesMm = coreMm.ToArray(), VeneerMm = veneerMm.ToArray(), Zones = zones.ToArray(),
        };
        map.Statuses(veneerMm, coreMm, points.Statuses, zones);
        map.Differences(veneerMm, coreMm, points.Differences, zones);
        map.Colors(veneerMm, coreMm, points.Colors, zones);
        return points;
    }

    public static MapPointValues Of(SpreadField field)
    {
        MapPointValues points = new(field.PointCount)
        {
            ThicknessesMm = field.ThicknessesMm.ToArray(), Zones = field.ZoneOfPoint.ToArray(),
            Stumps = field.StumpOfPoint.ToArray(),
        };
        field.Statuses(points.Statuses);
        field.Differences(points.Differences);
        field.Colors(points.Colors);
        return points;
    }

    private static void RequireFinite(ReadOnlySpan<double> mm, string name)
    {
        for (int i = 0; i < mm.Length; i++)
        {
            if (Math.Abs(mm[i]) > LargestMm)
            {
                Guard.InRange(mm[i], -LargestMm, LargestMm, "mm", $"{name} at point {Guard.Text(i)}");
            }
        }
    }
}
