namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// A stack's answer to light that varies sideways, one wavelength at a time. Not for use by two threads at once.
/// </summary>
internal abstract class LateralSampler
{
    /// <summary>The response at one lateral frequency.</summary>
    /// <param name="wavelength">Position in the grid of the stack.</param>
    /// <param name="frequencyPerMm">k, 0 or above, rad/mm; infinity gives what returns where it entered.</param>
    /// <param name="layersMm">Thicknesses from the surface down.</param>
    public abstract LateralResponse At(int wavelength, double frequencyPerMm, ReadOnlySpan<double> layersMm);

    /// <summary>
    /// The responses at <see cref="LateralFrequencies.PerMm"/>, between which the work can be stopped.
    /// </summary>
    public LateralResponse[] At(int wavelength, double[] layersMm, CancellationToken cancellation) =>
        Array.ConvertAll(LateralFrequencies.PerMm, perMm =>
        {
            cancellation.ThrowIfCancellationRequested();
            return At(wavelength, perMm, layersMm);
        });
}
