using System.Text.Json.Serialization;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>
/// How thick the wall must be so that a spot on the stump does not show, and how far the spot shows under a thinner
/// wall.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class SpotMaskingResult : Answer
{
    private readonly SpotCurves _curves;

    internal SpotMaskingResult(
        Restoration restoration, Zone zone, Substrate spot, double radiusMm, MinimumThickness minimum,
        SpotCurves curves, ThicknessRange range, IEnumerable<Caution> cautions)
        : base(Guard.Copy(cautions))
    {
        (Restoration, Zone, Spot, RadiusMm, Minimum, _curves) = (restoration, zone, spot, radiusMm, minimum, curves);
        WallRange = range;
    }

    /// <summary>The restoration that was asked about, with its one zone.</summary>
    public Restoration Restoration { get; }

    /// <summary>The zone around the spot.</summary>
    public Zone Zone { get; }

    /// <summary>The stump inside the spot.</summary>
    internal Substrate Spot { get; }

    /// <summary>Radius of the spot, mm.</summary>
    internal double RadiusMm { get; }

    /// <summary>Thicknesses at which the criterion is met at every distance: by colour, reliable, structural,
    /// recommended.</summary>
    public MinimumThickness Minimum { get; }

    /// <summary>Thicknesses of the wall that were considered.</summary>
    public ThicknessRange WallRange { get; }

    /// <summary>Differences from the middle of the spot outwards under a wall of one thickness.</summary>
    /// <param name="wallMm">Thickness of the wall inside its range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is outside the range or NaN.</exception>
    public IReadOnlyList<SpotPoint> ProfileAt(double wallMm)
    {
        Guard.InRange(wallMm, WallRange.MinMm, WallRange.MaxMm, "mm");
        return Guard.Copy(_curves.DistancesMm.Select((mm, r) => new SpotPoint(mm, _curves.Difference(r, wallMm))));
    }

    /// <summary>How far beyond the rim of the spot the criterion is missed under a wall of one thickness.</summary>
    /// <param name="wallMm">Thickness of the wall inside its range, mm.</param>
    /// <returns>
    /// Distance from the rim, mm, straight lines between the points of <see cref="ProfileAt"/>; 0 where the criterion
    /// is missed inside the rim only or nowhere; infinity where it is missed at the last point, nearly 10 mm beyond, as
    /// over the stump around the spot itself.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is outside the range or NaN.</exception>
    public double ReachMm(double wallMm)
    {
        IReadOnlyList<SpotPoint> profile = ProfileAt(wallMm);
        int last = profile.Count - 1;
        double limit = Restoration.Criterion.Limit;
        while (last >= 0 && profile[last].Difference <= limit)
        {
            last--;
        }

        if (last == profile.Count - 1)
        {
            return double.PositiveInfinity;
        }

        if (last < 0)
        {
            return 0;
        }

        (SpotPoint shows, SpotPoint masked) = (profile[last], profile[last + 1]);
        double along = (shows.Difference - limit) / (shows.Difference - masked.Difference);
        return Math.Max(0, shows.DistanceMm + (along * (masked.DistanceMm - shows.DistanceMm)) - RadiusMm);
    }

    /// <summary>For example "post in cervical, radius 1.50 mm: 1.54 mm suggested for review (by colour 1.39,
    /// ...); 1.6 mm available". A wall above the available thickness is not suggested; the text then says that it does
    /// not fit, and by how much.</summary>
    private protected override string InWords(Language language) => language.Text(
        "SpotMasking", Spot.Name, Zone.Name, RadiusMm, Minimum.InRoom(language, Zone.AvailableMm),
        Zone.AvailableMm);
}
