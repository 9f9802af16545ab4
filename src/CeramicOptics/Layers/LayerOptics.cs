namespace CeramicOptics.Layers;

/// <summary>
/// Diffuse reflectance and transmittance of a layer, a boundary or a whole stack, seen from both sides, at one
/// wavelength.
/// </summary>
/// <param name="ReflectanceFromAbove">Share of the light from above that returns, 0 to 1.</param>
/// <param name="ReflectanceFromBelow">Share of the light from below that returns, 0 to 1.</param>
/// <param name="TransmittanceDown">Share of the light from above that leaves below, 0 to 1.</param>
/// <param name="TransmittanceUp">Share of the light from below that leaves above, 0 to 1.</param>
/// <remarks>
/// A composed stack is not symmetric, and a boundary between two indices transmits differently down and up, so all four
/// are kept. Source: Kubelka 1954, J. Opt. Soc. Am. 44:330-335.
/// </remarks>
internal readonly record struct LayerOptics(
    double ReflectanceFromAbove, double ReflectanceFromBelow, double TransmittanceDown, double TransmittanceUp)
{
    /// <summary>Nothing: all light passes.</summary>
    public static LayerOptics Clear { get; } = new(0, 0, 1, 1);

    /// <summary>Reflectance of this element on a backing, seen from above.</summary>
    /// <param name="backing">Reflectance of the backing seen from just below this element, 0 to 1.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentException">This element and the backing reflect all light between them.</exception>
    public double OnBacking(double backing)
    {
        double between = 1 - (ReflectanceFromBelow * Guard.InRange(backing, 0, 1, ""));
        if (!(between > 0))
        {
            throw new ArgumentException("Light between two perfect reflectors has no determined outcome.");
        }

        // Lossless elements on white can round to an ulp above 1.
        return Math.Min(1, ReflectanceFromAbove + (TransmittanceDown * TransmittanceUp * backing / between));
    }
}
