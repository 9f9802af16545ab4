namespace CeramicOptics.Colorimetry;

/// <summary>How a spectrum was summed to tristimulus values.</summary>
public enum WeightingMethod
{
    /// <summary>Direct sum at the 1 nm wavelengths of the CIE tables.</summary>
    DirectSum,

    /// <summary>Direct sum at the data's own, finer wavelengths; the CIE tables are interpolated.</summary>
    FineDirectSum,

    /// <summary>
    /// Data interpolated to the wavelengths of the sum by Lagrange's formula inside the weights (ASTM E2022).
    /// </summary>
    InterpolatedSum,
}
