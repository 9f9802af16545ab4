using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_zone</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct ZoneInput
{
    public uint Size;
    public int Stump;
    public byte* Name;
    public double* StumpReflectance;
    public double StumpRefractiveIndex, StumpSpotMm, StumpWindowMm;
    public int Reference, Strength;
    public double TargetL, TargetA, TargetB, TargetSpotMm, TargetWindowMm, StrengthLimitMm;
}
