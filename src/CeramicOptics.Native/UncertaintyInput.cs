using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_uncertainty</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal struct UncertaintyInput
{
    public uint Size, Reserved;
    public double CoreMm, VeneerMm, GlazeMm, LinerMm, CementMm, StumpReflectance, TargetColor, RefractiveIndex,
        ModelColor;
}
