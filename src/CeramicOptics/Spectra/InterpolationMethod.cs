namespace CeramicOptics.Spectra;

/// <summary>How values between given wavelengths are found.</summary>
public enum InterpolationMethod
{
    /// <summary>
    /// Sprague's fifth-degree polynomial for equally spaced data (CIE 167:2005); needs 6 values; may overshoot at
    /// steps.
    /// </summary>
    Sprague,

    /// <summary>
    /// Monotone piecewise cubic (Fritsch and Carlson 1980, harmonic-mean slopes); never leaves the range of neighbours.
    /// </summary>
    MonotoneCubic,
}
