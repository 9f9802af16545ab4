namespace CeramicOptics.Layers;

/// <summary>
/// A stack's <see cref="SubstrateResponse"/> at any thicknesses of its layers, one wavelength at a time. Not for two
/// threads at once.
/// </summary>
internal abstract class StackSampler
{
    /// <summary>Degree of polynomials over a thickness to begin with.</summary>
    public virtual int FirstDegree => 12;

    public abstract SubstrateResponse At(int wavelength, ReadOnlySpan<double> layersMm);

    /// <summary>Another K and S, 1/mm, of one layer at one wavelength from now on.</summary>
    public abstract void Set(int wavelength, int layer, double absorptionPerMm, double scatteringPerMm);

    /// <summary>Reading with one layer infinitely thick, so that nothing below it matters.</summary>
    /// <exception cref="ArgumentException">
    /// The layer neither absorbs nor scatters there, so that no thickness hides what is below; names material and
    /// wavelength.
    /// </exception>
    public abstract double InfiniteAt(int wavelength, int layer, ReadOnlySpan<double> layersMm);

    /// <summary>The error of asking for an infinitely thick clear layer.</summary>
    protected static ArgumentException Clear(Material material, double wavelengthNm) => new(
        $"'{material.Name}' neither absorbs nor scatters at {Guard.Text(wavelengthNm)} nm, so that no thickness of it "
            + "hides what is below; compare with the same restoration over a good substrate, or with a target, instead "
            + "of an infinitely thick layer.");
}
