namespace CeramicOptics.Layers;

/// <summary>
/// A stack's <see cref="SubstrateResponse"/> at any thicknesses of its layers, one wavelength at a time. Not for two
/// threads at once.
/// </summary>
internal abstract class StackSampler
{
    /// <summary>The response with the given thicknesses, mm, from the surface down.</summary>
    public abstract SubstrateResponse At(int wavelength, ReadOnlySpan<double> layersMm);

    /// <summary>Reading with one layer infinitely thick, so that nothing below it matters.</summary>
    /// <exception cref="ArgumentException">The layer neither absorbs nor scatters there.</exception>
    public abstract double InfiniteAt(int wavelength, int layer, ReadOnlySpan<double> layersMm);
}
