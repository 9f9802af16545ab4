namespace CeramicOptics.Native;

/// <summary>Some points in a row, as the maps take them.</summary>
internal readonly ref struct PointBlock(
    ReadOnlySpan<double> veneerMm, ReadOnlySpan<double> wallMm, ReadOnlySpan<byte> zones)
{
    public ReadOnlySpan<double> VeneerMm { get; } = veneerMm;

    /// <summary>Wall, or core where the veneer varies too.</summary>
    public ReadOnlySpan<double> WallMm { get; } = wallMm;

    public ReadOnlySpan<byte> Zones { get; } = zones;
}
