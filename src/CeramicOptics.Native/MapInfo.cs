using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_info</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct MapInfo
{
    public uint Size;
    public int ZoneCount;
    public double MinMm, MaxMm, VeneerMinMm, VeneerMaxMm, ErrorBound, Limit, ByColorMm, ReliableMm, ReliableShare,
        StructuralMm, RecommendedMm, StandardUncertaintyMm, ByColorUpToMm, ReliableUpToMm;
}
