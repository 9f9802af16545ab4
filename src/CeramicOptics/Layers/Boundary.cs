using MathNet.Numerics.Integration;

namespace CeramicOptics.Layers;

/// <summary>Fresnel reflection at a smooth boundary between two media without absorption.</summary>
internal static class Boundary
{
    private const int QuadratureOrder = 24;

    /// <summary>Reflectance of unpolarised light that meets the boundary under one angle.</summary>
    /// <param name="fromIndex">Index of the medium the light comes from, 1 to 4.</param>
    /// <param name="toIndex">Index of the other medium, 1 to 4.</param>
    /// <param name="angleDegrees">Angle of incidence in the first medium, 0 to 90 degrees.</param>
    /// <returns>0 to 1; 1 beyond the angle of total reflection.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    /// <remarks>Born, Wolf, Principles of Optics, 7th ed., 1.5.2, eq. 21a.</remarks>
    public static double Fresnel(double fromIndex, double toIndex, double angleDegrees)
    {
        CheckIndex(fromIndex, nameof(fromIndex));
        CheckIndex(toIndex, nameof(toIndex));
        Guard.InRange(angleDegrees, 0, 90, "degrees");
        double angle = angleDegrees * (Math.PI / 180);
        double cosine = Math.Max(0, Math.Cos(angle)), sine = fromIndex / toIndex * Math.Sin(angle);
        if (sine >= 1)
        {
            return fromIndex == toIndex ? 0 : 1;
        }

        return Fresnel(fromIndex, cosine, toIndex, Math.Sqrt((1 - sine) * (1 + sine)));
    }

    /// <summary>The same by the cosines of the angles to the normal on both sides, not both 0; unchecked.</summary>
    public static double Fresnel(double fromIndex, double fromCosine, double toIndex, double toCosine)
    {
        double perpendicular = ((fromIndex * fromCosine) - (toIndex * toCosine))
            / ((fromIndex * fromCosine) + (toIndex * toCosine));
        double parallel = ((toIndex * fromCosine) - (fromIndex * toCosine))
            / ((toIndex * fromCosine) + (fromIndex * toCosine));
        return ((perpendicular * perpendicular) + (parallel * parallel)) / 2;
    }

    /// <summary>The boundary under diffuse (Lambertian) light from either side.</summary>
    /// <param name="upperIndex">Index of the medium above, 1 to 4.</param>
    /// <param name="lowerIndex">Index of the medium below, 1 to 4.</param>
    /// <returns>
    /// Reflectances from above and below; from the denser side they contain total internal reflection. Nothing is
    /// absorbed.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">An index is outside its range or NaN.</exception>
    /// <remarks>
    /// From the thinner side r = integral of F(μ) 2 μ dμ (Walsh 1926; Duntley 1942); from the denser side by the exact
    /// relation 1 - r12 = (n2/n1)² (1 - r21), which follows from the conservation of étendue. 1 to 1.5: 0.0918 outside,
    /// 0.596 inside.
    /// </remarks>
    public static LayerOptics Diffuse(double upperIndex, double lowerIndex)
    {
        CheckIndex(upperIndex, nameof(upperIndex));
        CheckIndex(lowerIndex, nameof(lowerIndex));
        double ratio = Math.Max(upperIndex, lowerIndex) / Math.Min(upperIndex, lowerIndex);
        double outside = FromThinnerSide(ratio);
        double inside = 1 - ((1 - outside) / (ratio * ratio));
        return upperIndex <= lowerIndex
            ? new LayerOptics(outside, inside, 1 - outside, 1 - inside)
            : new LayerOptics(inside, outside, 1 - inside, 1 - outside);
    }

    // With μ = sqrt(n² - 1) sinh(u) the amplitude of s light is -exp(-2 u) and the integrand is smooth for every n > 1,
    // however near.
    private static double FromThinnerSide(double n)
    {
        double excess = (n - 1) * (n + 1);
        if (excess == 0)
        {
            return 0;
        }

        double Integrand(double u)
        {
            double sinh = Math.Sinh(u), cosh = Math.Cosh(u);
            double parallel = ((n * n * sinh) - cosh) / ((n * n * sinh) + cosh);
            return (Math.Exp(-4 * u) + (parallel * parallel)) * sinh * cosh;
        }

        // The p amplitude vanishes at tanh u = 1/n² and varies on the scale of 1 in u; panels of about one keep the
        // rule exact.
        double end = Math.Log((1 + n) / Math.Sqrt(excess));
        int panels = (int)Math.Ceiling(end);
        double sum = 0;
        for (int i = 0; i < panels; i++)
        {
            sum += GaussLegendreRule.Integrate(Integrand, end * i / panels, end * (i + 1) / panels, QuadratureOrder);
        }

        return excess * sum;
    }

    private static void CheckIndex(double index, string name) =>
        Guard.InRange(index, RefractiveIndex.Minimum, RefractiveIndex.Maximum, "", name);
}
