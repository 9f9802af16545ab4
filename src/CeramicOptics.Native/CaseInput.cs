using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_case</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CaseInput
{
    public uint Size;
    public int Model;
    public double StartNm, StepNm;
    public int Wavelengths, Formula;
    public double Limit;
    public LayerInput* Layers;
    public ZoneInput* Zones;
    public int LayerCount, ZoneCount;
    public double CouplingIndex, MinMm, MaxMm, VeneerMinMm, VeneerMaxMm;
    public byte** Illuminants;
    public int IlluminantCount, Observer;
    public UncertaintyInput* Uncertainty;
    public double ReliableShare;
}
