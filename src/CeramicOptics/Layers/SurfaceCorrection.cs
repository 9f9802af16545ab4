namespace CeramicOptics.Layers;

/// <summary>
/// The way between what an instrument reads in air and the diffuse reflectance inside a specimen, both directions
/// exact.
/// </summary>
/// <remarks>
/// R = k1 + τ Ri / (1 - k2 Ri) with k2 the diffuse internal reflectance of the surface. Diffuse/8: k1 is Fresnel's
/// reflectance at 8 degrees (0 with the specular trap) and τ = (1 - F(8°)) (1 - k2). 45:0 and 0:45: k1 = 0 and τ = (1 -
/// F(45°)) (1 - F(0°)) / n². d:d: k1 is the diffuse external reflectance and τ = (1 - k1) (1 - k2). The surface is
/// smooth and the light inside diffuse. The default is no surface and is refused. Source: Saunderson 1942, J. Opt. Soc.
/// Am. 32:727-736; the 1/n² of the radiance, Judd and Wyszecki, Color in Business, Science and Industry.
/// </remarks>
public readonly record struct SurfaceCorrection
{
    private const double NearNormalDegrees = 8;

    private readonly double _specular, _through, _internal, _entering;

    /// <summary>The surface of a medium seen from air.</summary>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="refractiveIndex">Index of the medium at one wavelength, 1 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index is outside its range or NaN.</exception>
    public SurfaceCorrection(MeasurementGeometry geometry, double refractiveIndex)
    {
        LayerOptics surface = Boundary.Diffuse(1, refractiveIndex);
        double FresnelAt(double degrees) => Boundary.Fresnel(1, refractiveIndex, degrees);
        _internal = surface.ReflectanceFromBelow;
        switch (Guard.Defined(geometry))
        {
            case MeasurementGeometry.DiffuseSpecularIncluded:
            case MeasurementGeometry.DiffuseSpecularExcluded:
                _through = (1 - FresnelAt(NearNormalDegrees)) * surface.TransmittanceUp;
                _entering = surface.TransmittanceDown;
                _specular = geometry == MeasurementGeometry.DiffuseSpecularIncluded ? FresnelAt(NearNormalDegrees) : 0;
                break;
            case MeasurementGeometry.FortyFiveZero:
            case MeasurementGeometry.ZeroFortyFive:
                _through = (1 - FresnelAt(45)) * (1 - FresnelAt(0)) / (refractiveIndex * refractiveIndex);
                _entering = 1 - FresnelAt(geometry == MeasurementGeometry.FortyFiveZero ? 45 : 0);
                break;
            case MeasurementGeometry.DiffuseDiffuse:
                _through = surface.TransmittanceDown * surface.TransmittanceUp;
                _specular = surface.ReflectanceFromAbove;
                _entering = surface.TransmittanceDown;
                break;
            default:
                (_specular, _through, _internal, _entering) = (0, 1, 0, 1);
                break;
        }
    }

    /// <summary>What the instrument reads.</summary>
    /// <param name="internalReflectance">Diffuse reflectance inside the medium, just below its surface, 0 to 1.</param>
    /// <returns>Reflectance factor, 0 to 1 (45:0 of a near-white body up to 1.01).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The reflectance is outside its range or NaN.</exception>
    /// <exception cref="InvalidOperationException">This is the default, no surface.</exception>
    public double ToMeasured(double internalReflectance)
    {
        RequireSurface();
        return Measured(Guard.InRange(internalReflectance, 0, 1, ""));
    }

    /// <summary>The reflectance inside, from a reading; inverse of <see cref="ToMeasured"/>.</summary>
    /// <param name="measuredReflectance">Reflectance factor.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No internal reflectance from 0 to 1 gives this reading (for example, it is below the surface reflection).
    /// </exception>
    /// <exception cref="InvalidOperationException">This is the default, no surface.</exception>
    public double ToInternal(double measuredReflectance)
    {
        RequireSurface();

        // The ends of the range are reached only up to rounding.
        double low = Measured(0), high = Measured(1);
        Guard.InRange(measuredReflectance, low - 1e-12, high + 1e-12, "", "measuredReflectance (surface correction)");
        return Math.Min(Math.Max(Inverse(measuredReflectance), 0), 1);
    }

    private void RequireSurface()
    {
        if (_entering == 0)
        {
            throw new InvalidOperationException("A default SurfaceCorrection is no surface; give geometry and index.");
        }
    }

    internal double Measured(double internalReflectance) =>
        _specular + (_through * internalReflectance / (1 - (_internal * internalReflectance)));

    /// <summary>
    /// What the instrument reads of a stack below the surface, by what is known of it there (see
    /// <see cref="TwoFlux.TwoFluxSampler"/>).
    /// </summary>
    internal SubstrateResponse Over(double reflectance, double emerging, double reaching, double returning)
    {
        double divisor = 1 - (_internal * reflectance), exchange = emerging * reaching;
        return new SubstrateResponse(
            Measured(reflectance),
            _through * exchange / (divisor * divisor),
            returning + (_internal * exchange / divisor),
            _entering * reaching / divisor);
    }

    /// <summary>dR/dRi of <see cref="Measured"/>.</summary>
    internal double MeasuredSlope(double internalReflectance)
    {
        double divisor = 1 - (_internal * internalReflectance);
        return _through / (divisor * divisor);
    }

    /// <summary>The inverse without a check of its range; for fits that judge the outcome themselves.</summary>
    internal double Inverse(double measuredReflectance)
    {
        double excess = measuredReflectance - _specular;
        return excess / (_through + (_internal * excess));
    }

    /// <summary>dRi/dR of <see cref="Inverse"/>.</summary>
    internal double InverseSlope(double measuredReflectance)
    {
        double divisor = _through + (_internal * (measuredReflectance - _specular));
        return _through / (divisor * divisor);
    }
}
