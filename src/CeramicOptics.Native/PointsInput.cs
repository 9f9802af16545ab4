using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_points</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct PointsInput
{
    public uint Size;
    public int Type;
    public long Count;
    public byte* Thickness;
    public long ThicknessStride;
    public byte* Veneer;
    public long VeneerStride;
    public byte* Zones;
    public long ZoneStride;
}
