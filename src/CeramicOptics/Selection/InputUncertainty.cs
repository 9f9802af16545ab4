namespace CeramicOptics.Selection;

/// <summary>Standard uncertainties of what goes into a prediction, beside those of K and S that materials carry.</summary>
public sealed record InputUncertainty
{
    /// <summary>Uncertainties for one stack.</summary>
    /// <param name="layerThicknessMm">Standard uncertainty of each layer's thickness, from the surface down, mm, 0 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public InputUncertainty(IEnumerable<double> layerThicknessMm) =>
        LayerThicknessMm = Guard.Copy(Guard.NotNull(layerThicknessMm).Select(value => Guard.InRange(value, 0, 10, "mm", "layer thickness uncertainty")));

    /// <summary>Standard uncertainty of each layer's thickness, mm.</summary>
    public IReadOnlyList<double> LayerThicknessMm { get; }

    /// <summary>Of the stump's internal reflectance, equal at all wavelengths and fully correlated, 0 to 0.2.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double StumpReflectance { get; init => field = Guard.InRange(value, 0, 0.2, "", nameof(StumpReflectance)); } = 0.01;

    /// <summary>Of each of L*, a*, b* of a target reading, 0 to 10; without effect where the reference is no target.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double TargetColor { get; init => field = Guard.InRange(value, 0, 10, "", nameof(TargetColor)); } = 0.3;

    /// <summary>Of the refractive index of each layer, independent of one another, 0 to 0.2.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double RefractiveIndex { get; init => field = Guard.InRange(value, 0, 0.2, "", nameof(RefractiveIndex)); } = 0.01;
}
