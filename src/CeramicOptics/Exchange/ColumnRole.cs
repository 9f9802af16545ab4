namespace CeramicOptics.Exchange;

/// <summary>What a column of a table holds.</summary>
public enum ColumnRole
{
    /// <summary>Wavelengths, or, with wavelengths across, the values at one wavelength.</summary>
    Wavelength,

    /// <summary>Values of a reading, or of many where each row has a name.</summary>
    Reading,

    /// <summary>Names of readings.</summary>
    Name,

    /// <summary>Numbers or names that tell replicates of one reading apart.</summary>
    Replicate,

    /// <summary>Nothing that is read.</summary>
    NotUsed,
}
