using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_info</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct ResponseInfo
{
    public double MinMm, MaxMm, ErrorBound, ByColorMm, ReliableMm, ReliableShare, StructuralMm, RecommendedMm,
        StandardUncertaintyMm;
}
