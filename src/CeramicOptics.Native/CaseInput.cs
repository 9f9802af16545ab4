using System.Runtime.InteropServices;

namespace CeramicOptics.Native;

/// <summary>As <c>ceramic_case</c> of the header.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct CaseInput
{
    public double StartNm, StepNm;
    public int Wavelengths, Model, Layers;
    public LayerInput* Layer;
    public double CouplingIndex;
    public double* StumpReflectance;
    public double StumpRefractiveIndex, MinMm, MaxMm;
    public int Reference;
    public double TargetL, TargetA, TargetB;
    public int Formula;
    public double Limit, StrengthLimitMm;
    public int StrengthScope;
}
