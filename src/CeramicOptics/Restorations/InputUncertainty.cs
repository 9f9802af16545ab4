namespace CeramicOptics.Restorations;

/// <summary>
/// Standard uncertainties of the inputs of a prediction, in addition to those of K and S, which materials carry.
/// </summary>
/// <remarks>
/// Every stated uncertainty, probability and reliable thickness of the library includes all of them. The defaults are
/// orders of magnitude of careful work (common practice, no source); give your own. Immutable, equal by value.
/// </remarks>
public sealed record InputUncertainty
{
    /// <summary>Of the thickness of the core (all of a monolithic wall), mm, 0 to 1; 0.03 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double CoreMm { get; init => field = Guard.InRange(value, 0, 1, "mm", nameof(CoreMm)); } = 0.03;

    /// <summary>Of the thickness of the veneer, mm, 0 to 1; 0.03 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double VeneerMm { get; init => field = Guard.InRange(value, 0, 1, "mm", nameof(VeneerMm)); } = 0.03;

    /// <summary>Of the thickness of the glaze, mm, 0 to 1; 0.01 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double GlazeMm { get; init => field = Guard.InRange(value, 0, 1, "mm", nameof(GlazeMm)); } = 0.01;

    /// <summary>Of the thickness of the liner, mm, 0 to 1; 0.02 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double LinerMm { get; init => field = Guard.InRange(value, 0, 1, "mm", nameof(LinerMm)); } = 0.02;

    /// <summary>Of the cement film, mm, 0 to 1; 0.02 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double CementMm { get; init => field = Guard.InRange(value, 0, 1, "mm", nameof(CementMm)); } = 0.02;

    /// <summary>
    /// Of the stump's internal reflectance, equal at all wavelengths and fully correlated, 0 to 0.2; 0.01 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double StumpReflectance
    {
        get;
        init => field = Guard.InRange(value, 0, 0.2, "", nameof(StumpReflectance));
    } = 0.01;

    /// <summary>
    /// Of each of L*, a*, b* of a target reading, 0 to 10; 0.3 by default. Without effect where the reference is not a
    /// target.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double TargetColor { get; init => field = Guard.InRange(value, 0, 10, "", nameof(TargetColor)); } = 0.3;

    /// <summary>Of the refractive index of each layer, independent of one another, 0 to 0.2; 0.01 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double RefractiveIndex
    {
        get;
        init => field = Guard.InRange(value, 0, 0.2, "", nameof(RefractiveIndex));
    } = 0.01;

    /// <summary>
    /// Of each of L*, a*, b* of a predicted colour from the optical model itself, 0 to 10; null for the error that the
    /// model states, which depends on the wall and on the discs behind its constants.
    /// </summary>
    /// <remarks>
    /// For a target the whole error counts. For a masking reference it decreases in proportion to the CIELAB difference
    /// when that is below 4: wall and reference are predicted by one theory, and have the same colour once the stump is
    /// hidden. The error that models state decreases in the same way, below a difference of their own
    /// (docs/selection.md has figures).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double? ModelColor
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 0, 10, "", nameof(ModelColor));
    }

    internal double ThicknessMm(LayerRole role) => role switch
    {
        LayerRole.Core => CoreMm,
        LayerRole.Veneer => VeneerMm,
        LayerRole.Liner => LinerMm,
        LayerRole.Cement => CementMm,
        _ => GlazeMm,
    };
}
