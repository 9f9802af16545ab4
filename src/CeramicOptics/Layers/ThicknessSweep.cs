using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>A <see cref="LayerStack"/> made ready to evaluate many thicknesses of one of its layers.</summary>
/// <remarks>
/// At each wavelength the reflectance moves steadily (never back) from that of the bare backing to that of the infinitely thick
/// layer as thickness grows, whatever lies above. Immutable and safe to share.
/// </remarks>
public sealed class ThicknessSweep
{
    private readonly double[] _backing;
    private readonly LayerOptics[] _cover;
    private readonly SurfaceCorrection[] _surface;
#if NET
    private readonly Lazy<SweepKernel> _kernel;
#endif

    internal ThicknessSweep(Material material, double[] backing, LayerOptics[] cover, SurfaceCorrection[] surface)
    {
        (Material, _backing, _cover, _surface) = (material, backing, cover, surface);
#if NET
        _kernel = new Lazy<SweepKernel>(() => new SweepKernel(material.Absorption.Values, material.Scattering.Values, backing, cover, surface));
#endif
    }

    /// <summary>Substance of the layer that varies.</summary>
    public Material Material { get; }

    /// <summary>Wavelengths of the result.</summary>
    public WavelengthGrid Grid => Material.Grid;

    /// <summary>Reflectance factor of the stack at one thickness of the layer.</summary>
    /// <param name="thicknessMm">Thickness, 0 to 100 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public ReflectanceSpectrum Reflectance(double thicknessMm)
    {
        Guard.InRange(thicknessMm, 0, Layer.MaximumThicknessMm, "mm");
        double[] values = new double[Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = ReflectanceAt(i, thicknessMm);
        }

        return new ReflectanceSpectrum(Grid, values);
    }

    /// <summary>The same into the caller's memory, fast; allocates nothing after the first call.</summary>
    /// <param name="thicknessMm">Thickness, 0 to 100 mm.</param>
    /// <param name="destination">Receives one reflectance factor for each wavelength.</param>
    /// <remarks>Within 1e-10 of the other form, which is the definition.</remarks>
    /// <exception cref="ArgumentException">The length differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public void Reflectance(double thicknessMm, Span<double> destination)
    {
        Guard.InRange(thicknessMm, 0, Layer.MaximumThicknessMm, "mm");
        RequireLength(destination);
#if NET
        SweepKernel kernel = _kernel.Value;
        kernel.Reflectance(thicknessMm, destination);
        foreach (int i in kernel.Delicate)
        {
            destination[i] = ReflectanceAt(i, thicknessMm);
        }
#else
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ReflectanceAt(i, thicknessMm);
        }
#endif
    }

    /// <summary>Reflectance factor with the layer infinitely thick, so that nothing below it matters.</summary>
    public ReflectanceSpectrum InfiniteReflectance()
    {
        double[] values = new double[Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = InfiniteReflectanceAt(i, Material.Absorption[i], Material.Scattering[i]);
        }

        return new ReflectanceSpectrum(Grid, values);
    }

    private double ReflectanceAt(int wavelength, double thicknessMm) =>
        ReflectanceAt(wavelength, Material.Absorption[wavelength], Material.Scattering[wavelength], thicknessMm);

    internal double ReflectanceAt(int wavelength, double k, double s, double thicknessMm) =>
        ThroughCover(wavelength, TwoFlux.ReflectanceUnchecked(k, s, thicknessMm, _backing[wavelength]));

    /// <summary>The same with its derivatives by K and S of the layer.</summary>
    internal (double Value, double ByAbsorptionMm, double ByScatteringMm) SensitivityAt(int wavelength, double k, double s, double thicknessMm)
    {
        LayerSensitivity layer = TwoFlux.SensitivityUnchecked(k, s, thicknessMm, _backing[wavelength]);
        LayerOptics cover = _cover[wavelength];
        double below = cover.OnBacking(layer.Reflectance), divisor = 1 - (cover.ReflectanceFromBelow * layer.Reflectance);
        double slope = _surface[wavelength].MeasuredSlope(below) * cover.TransmittanceDown * cover.TransmittanceUp / (divisor * divisor);
        return (_surface[wavelength].Measured(below), slope * layer.ByAbsorptionMm, slope * layer.ByScatteringMm);
    }

    internal double InfiniteReflectanceAt(int wavelength, double k, double s) =>
        ThroughCover(wavelength, TwoFlux.InfiniteReflectance(k, s));

    private double ThroughCover(int wavelength, double layer) => _surface[wavelength].Measured(_cover[wavelength].OnBacking(layer));

    private void RequireLength(Span<double> destination)
    {
        if (destination.Length != Grid.Count)
        {
            throw new ArgumentException($"destination holds {destination.Length} values but {Grid} is needed.", nameof(destination));
        }
    }
}
