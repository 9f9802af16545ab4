namespace CeramicOptics.Exchange;

/// <summary>Where the wavelengths of a table stand.</summary>
public enum TableLayout
{
    /// <summary>One row for each wavelength, one column for each reading.</summary>
    WavelengthsDown,

    /// <summary>One row for each reading; the wavelengths stand in the heading.</summary>
    WavelengthsAcross,

    /// <summary>One row for each value, with the name of its reading and its wavelength.</summary>
    OneValueARow,
}
