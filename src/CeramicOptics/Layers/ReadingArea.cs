using CeramicOptics.Layers.Lateral;

namespace CeramicOptics.Layers;

/// <summary>
/// The area of a specimen that an instrument illuminates and measures: a wide area, or a round spot and window.
/// </summary>
/// <remarks>
/// Light leaves a translucent body up to several millimetres from where it entered. A small window loses it, so that
/// readings through one are lower than those of an instrument with a large area (docs/lateral.md). Spot and window are
/// round, uniform and concentric; either may be the wider; the instrument is calibrated through the same window on a
/// white that loses no light sideways. Immutable, equal by value.
/// </remarks>
public sealed record ReadingArea : IFormattable
{
    private const double Smallest = LateralFrequencies.SmallestRadiusMm, Largest = LateralFrequencies.LargestRadiusMm;

    private ReadingArea(bool isStated) => IsStated = isStated;

    /// <summary>
    /// So wide that no light is lost: spot or window exceeds the other by centimetres, or both are centimetres wide.
    /// </summary>
    public static ReadingArea Large { get; } = new(true);

    /// <summary>
    /// Not known, as with published data. Treated as <see cref="Large"/>; results report this with the error that a
    /// small window would cause.
    /// </summary>
    public static ReadingArea NotStated { get; } = new(false);

    /// <summary>False where nothing is known of the area.</summary>
    internal bool IsStated { get; }

    /// <summary>Radius of the illuminated spot, mm; null where the area is large or not stated.</summary>
    internal double? SpotRadiusMm { get; private init; }

    /// <summary>Radius of the measured window, mm; null where the area is large or not stated.</summary>
    internal double? WindowRadiusMm { get; private init; }

    /// <summary>Radius of the specimen, mm; null where it is much wider than spot and window.</summary>
    internal double? DiscRadiusMm { get; private init; }

    /// <summary>What the side of the specimen does; null where it is far away.</summary>
    internal DiscSide? Side { get; private init; }

    /// <summary>A spot and a window in the middle of a specimen that is much wider than both.</summary>
    /// <param name="spotRadiusMm">Radius of the spot that is lit, 0.5 to 50 mm.</param>
    /// <param name="windowRadiusMm">Radius of the window that is seen, 0.5 to 50 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A radius is outside its range or NaN.</exception>
    public static ReadingArea Circular(double spotRadiusMm, double windowRadiusMm) => new(true)
    {
        SpotRadiusMm = Guard.InRange(spotRadiusMm, Smallest, Largest, "mm"),
        WindowRadiusMm = Guard.InRange(windowRadiusMm, Smallest, Largest, "mm"),
    };

    /// <summary>A spot and a window in the middle of a round disc.</summary>
    /// <param name="spotRadiusMm">Radius of the spot that is lit, 0.5 mm to that of the disc.</param>
    /// <param name="windowRadiusMm">Radius of the window that is seen, 0.5 mm to that of the disc.</param>
    /// <param name="discRadiusMm">Radius of the disc, 0.5 to 50 mm.</param>
    /// <param name="side">What its side does to light from inside.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A radius is outside its range or NaN, or spot or window is wider than the disc.
    /// </exception>
    public static ReadingArea OnDisc(double spotRadiusMm, double windowRadiusMm, double discRadiusMm, DiscSide side)
    {
        Guard.InRange(discRadiusMm, Smallest, Largest, "mm");
        double Within(double radiusMm, string name) => Guard.InRange(
            radiusMm, Smallest, discRadiusMm, "mm", $"{name} on a disc of {Guard.Text(discRadiusMm)} mm radius");
        return new(true)
        {
            SpotRadiusMm = Within(spotRadiusMm, nameof(spotRadiusMm)),
            WindowRadiusMm = Within(windowRadiusMm, nameof(windowRadiusMm)),
            DiscRadiusMm = discRadiusMm,
            Side = Guard.Defined(side),
        };
    }

    /// <summary>For example "spot of 2 mm and window of 2 mm radius".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).Text(
        !HasWindow ? IsStated ? "ReadingArea.Large" : "ReadingArea.NotStated"
        : DiscRadiusMm is null ? "ReadingArea.Circular" : "ReadingArea.OnDisc",
        SpotRadiusMm, WindowRadiusMm, DiscRadiusMm);

    /// <summary>True when light that spreads sideways changes the reading.</summary>
    internal bool HasWindow => WindowRadiusMm is not null;
}
