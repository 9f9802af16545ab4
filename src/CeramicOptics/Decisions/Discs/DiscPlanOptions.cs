using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Discs;

/// <summary>Which discs can be made, and how they will be read.</summary>
/// <remarks>
/// Uncertainties are orders of magnitude of careful work (common practice, no source); give your own. Immutable, equal
/// by value.
/// </remarks>
public sealed record DiscPlanOptions
{
    /// <summary>Thicknesses that discs can have, within 0.1 to 5 mm; 0.3 to 3 mm by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An end is outside its range.</exception>
    public ThicknessRange Thicknesses
    {
        get;
        init
        {
            Guard.InRange(value.MinMm, 0.1, 5, "mm", "thinnest disc");
            Guard.InRange(value.MaxMm, value.MinMm, 5, "mm", "thickest disc");
            field = value;
        }
    } = new(0.3, 3);

    /// <summary>Largest number of discs that are planned one after another, 1 to 6; 3 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int Discs { get; init => field = Guard.InRange(value, 1, 6, nameof(Discs)); } = 3;

    /// <summary>
    /// Standard uncertainty of one reading of a new disc at one wavelength, 1e-6 to 0.1; 0.002 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ReadingStandardUncertainty
    {
        get;
        init => field = Guard.InRange(value, 1e-6, 0.1, "", nameof(ReadingStandardUncertainty));
    } = 0.002;

    /// <summary>
    /// Standard uncertainty of the thickness of a new disc, mm, 0 to 1; common to all its readings; 0.01 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ThicknessStandardUncertaintyMm
    {
        get;
        init => field = Guard.InRange(value, 0, 1, "mm", nameof(ThicknessStandardUncertaintyMm));
    } = 0.01;

    /// <summary>
    /// Standard uncertainty of the internal reflectance of each backing, 0 to 0.2; common to all wavelengths and discs,
    /// one error for each backing; 0.005 by default. An ideal backing has none.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double BackingReflectance
    {
        get;
        init => field = Guard.InRange(value, 0, 0.2, "", nameof(BackingReflectance));
    } = 0.005;

    /// <summary>
    /// Relative standard uncertainty of the instrument's scale, common to all readings, 0 to 0.2; 0.003 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double InstrumentScale
    {
        get;
        init => field = Guard.InRange(value, 0, 0.2, "", nameof(InstrumentScale));
    } = 0.003;
}
