using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>How a file of readings is to be read where the file does not say.</summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record ImportOptions
{
    /// <summary>What is known beforehand about the layout of a table; takes precedence over what is detected.</summary>
    public TableDialect Dialect { get; init => field = Guard.NotNull(value, nameof(Dialect)); } = new();

    /// <summary>
    /// Wavelengths to which all readings are brought; null to keep those of the file, which must then be equally
    /// spaced and the same for all readings.
    /// </summary>
    public WavelengthGrid? Grid { get; init; }

    /// <summary>
    /// How readings are brought to <see cref="Grid"/>; unequally spaced ones always by
    /// <see cref="InterpolationMethod.MonotoneCubic"/>.
    /// </summary>
    public InterpolationMethod Interpolation
    {
        get;
        init => field = Guard.Defined(value, nameof(Interpolation));
    } = InterpolationMethod.Sprague;
}
