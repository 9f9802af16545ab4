namespace CeramicOptics.Exchange;

/// <summary>Where data comes from.</summary>
public enum DataOrigin
{
    /// <summary>Measured on a real specimen.</summary>
    Measured,

    /// <summary>Taken from a publication.</summary>
    Published,

    /// <summary>Estimated from other data, for example from colours alone.</summary>
    Estimated,

    /// <summary>Made up for a demonstration or a test.</summary>
    Invented,
}
