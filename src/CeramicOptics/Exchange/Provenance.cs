using CeramicOptics.Layers;

namespace CeramicOptics.Exchange;

/// <summary>Origin of data: how, with which instrument and when it was obtained.</summary>
public sealed record Provenance
{
    /// <summary>A record of origin.</summary>
    /// <param name="origin">Measured, published, estimated or invented.</param>
    /// <param name="instrument">Instrument, or the source of data that was not measured; not empty.</param>
    /// <param name="geometry">Geometry of the readings.</param>
    /// <param name="date">Date as yyyy-mm-dd; null when not stated.</param>
    /// <param name="note">Anything else; may be empty.</param>
    /// <exception cref="ArgumentException">Instrument empty, or the date is not a date.</exception>
    public Provenance(
        DataOrigin origin, string instrument, MeasurementGeometry geometry, string? date, string note = "")
    {
        Origin = Guard.Defined(origin);
        Instrument = Guard.NotBlank(instrument);
        Geometry = Guard.Defined(geometry);
        Date = date is null || DateTime.TryParseExact(
            date, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture,
            System.Globalization.DateTimeStyles.None, out _)
            ? date
            : throw new ArgumentException($"date must have the form yyyy-mm-dd but is '{date}'.", nameof(date));
        Note = note ?? "";
    }

    /// <summary>Measured, published, estimated or invented.</summary>
    public DataOrigin Origin { get; }

    /// <summary>Instrument.</summary>
    public string Instrument { get; }

    /// <summary>Geometry of the readings.</summary>
    public MeasurementGeometry Geometry { get; }

    /// <summary>Date, yyyy-mm-dd; null when not stated.</summary>
    public string? Date { get; }

    /// <summary>Anything else.</summary>
    public string Note { get; }
}
