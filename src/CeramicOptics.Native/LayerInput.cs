using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_layer</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct LayerInput
{
    public uint Size;
    public int Role;
    public double ThicknessMm, RefractiveIndex;
    public double* Absorption, Scattering;
    public double RelativeUncertainty;
}
