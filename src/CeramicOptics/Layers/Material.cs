using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>
/// A layer's substance: coefficients K and S over wavelength, the model they belong to, and a refractive index.
/// </summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class Material
{
    /// <summary>A material from its coefficients.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="model">The theory to which K and S belong.</param>
    /// <param name="absorption">K, 1/mm.</param>
    /// <param name="scattering">S, 1/mm, on the same grid.</param>
    /// <param name="refractiveIndex">Index, 1 to 4.</param>
    /// <param name="uncertainty">Uncertainty of K and S, on the same grid; null where it is not known.</param>
    /// <param name="discThicknessesMm">
    /// Thicknesses of the discs that K and S come from, 0.0001 to 100 mm; null where they are not known.
    /// </param>
    /// <exception cref="ArgumentException">The grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The index leaves 1 to 4 somewhere on the grid, or a thickness is outside its range.
    /// </exception>
    public Material(
        string name,
        IOpticalModel model,
        AbsorptionSpectrum absorption,
        ScatteringSpectrum scattering,
        RefractiveIndex refractiveIndex,
        CoefficientUncertainty? uncertainty = null,
        IEnumerable<double>? discThicknessesMm = null)
    {
        Name = Guard.NotBlank(name);
        Model = Guard.NotNull(model);
        Absorption = Guard.NotNull(absorption);
        Scattering = Guard.NotNull(scattering);
        absorption.Grid.RequireSame(scattering.Grid, $"Scattering of '{name}'");

        // At longer wavelengths the index only comes nearer to its constant.
        refractiveIndex.At(absorption.Grid.StartNm);
        RefractiveIndex = refractiveIndex;
        Uncertainty = uncertainty?.RequireFor(absorption.Grid, name);
        DiscThicknessesMm = Guard.Copy(discThicknessesMm ?? []);
        foreach (double mm in DiscThicknessesMm)
        {
            Guard.InRange(mm, 1e-4, Layer.MaximumThicknessMm, "mm", $"thickness of a disc of '{name}'");
        }
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>The theory to which K and S belong.</summary>
    public IOpticalModel Model { get; }

    /// <summary>Absorption coefficient K, 1/mm.</summary>
    public AbsorptionSpectrum Absorption { get; }

    /// <summary>Scattering coefficient S, 1/mm.</summary>
    public ScatteringSpectrum Scattering { get; }

    /// <summary>Refractive index.</summary>
    public RefractiveIndex RefractiveIndex { get; }

    /// <summary>Uncertainty of the coefficients; null where it is not known.</summary>
    public CoefficientUncertainty? Uncertainty { get; }

    /// <summary>Thicknesses of the discs that K and S come from, mm; empty where they are not known.</summary>
    /// <remarks>
    /// Predictions near these thicknesses are the most certain, and <c>Recalibration</c> reads such discs.
    /// </remarks>
    public IReadOnlyList<double> DiscThicknessesMm { get; }

    /// <summary>Wavelengths of the coefficients.</summary>
    public WavelengthGrid Grid => Absorption.Grid;

    /// <summary>This material at the wavelengths of another grid inside its range.</summary>
    /// <param name="grid">The grid to interpolate to; nothing is extrapolated.</param>
    /// <param name="method">Interpolation of K and S; Sprague (CIE 167) unless they have steps.</param>
    /// <remarks>
    /// Uncertainties and their correlation are interpolated by <see cref="InterpolationMethod.MonotoneCubic"/>, which
    /// never leaves the range of its neighbours. They stay those of single wavelengths: a finer grid has neighbours
    /// that share their errors, and results that count them as independent understate their uncertainty.
    /// </remarks>
    /// <exception cref="ArgumentException"><paramref name="grid"/> reaches outside this material's range.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Sprague overshoots the allowed range; use the monotone method.
    /// </exception>
    public Material Resample(WavelengthGrid grid, InterpolationMethod method = InterpolationMethod.Sprague) => new(
        Name, Model, Absorption.Resample(grid, method), Scattering.Resample(grid, method), RefractiveIndex,
        Uncertainty?.Resample(Grid, grid), DiscThicknessesMm) { Origin = Origin };

    /// <summary>
    /// The name; of constants that were turned into those of this theory also from which, and how well.
    /// </summary>
    public override string ToString() => Origin ?? Name;

    /// <summary>Name and origin, where there is more to say than the name.</summary>
    internal string? Origin { get; init; }

    internal void RequireSameModel(Material other)
    {
        if (!Model.IsSameTheoryAs(other.Model))
        {
            throw new ArgumentException(
                $"'{Name}' has K and S of {Model.Name} but '{other.Name}' those of {other.Model.Name}; one stack "
                    + "needs one model. Recalibration.Find turns the constants of one model into those of the other.");
        }
    }
}
