using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_case</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CaseInput
{
    public double StartNm, StepNm;
    public int Wavelengths, Layers;
    public double* Absorption, Scattering, RefractiveIndex, ThicknessMm, StumpReflectance;
    public double StumpRefractiveIndex;
    public int VariableLayer;
    public double MinMm, MaxMm;
    public int Reference;
    public double TargetL, TargetA, TargetB;
    public int Formula;
    public double Limit, StructuralMinimumMm;
}
