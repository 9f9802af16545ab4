using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>
/// Saunderson's correction at diffuse/8 with terms of the instrument's own: R = share F + (1 - F)(1 - b) Ri / (1 - b
/// Ri), F Fresnel's reflectance at 8 degrees.
/// </summary>
internal readonly struct SurfaceTerms(double index, double share, double inside)
{
    private readonly double _fresnel = Boundary.Fresnel(1, index, 8);

    public double Inverse(double measured)
    {
        double excess = measured - (share * _fresnel);
        return excess / (((1 - _fresnel) * (1 - inside)) + (inside * excess));
    }

    /// <summary>The reading and its slopes by Ri, by the share and by b.</summary>
    public (double Value, double ByInternal, double ByShare, double ByInside) At(double internalReflectance)
    {
        double divisor = 1 - (inside * internalReflectance), entering = 1 - _fresnel;
        return (
            (share * _fresnel) + (entering * (1 - inside) * internalReflectance / divisor),
            entering * (1 - inside) / (divisor * divisor), _fresnel,
            entering * internalReflectance * (internalReflectance - 1) / (divisor * divisor));
    }
}
