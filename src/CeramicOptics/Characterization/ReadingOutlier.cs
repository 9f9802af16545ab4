namespace CeramicOptics.Characterization;

/// <summary>A value far from the fit.</summary>
/// <param name="Reading">Name of the reading.</param>
/// <param name="WavelengthNm">Wavelength, nm.</param>
/// <param name="StudentizedResidual">Residual (measured less fitted) in units of its own standard uncertainty; beyond 4 either way.</param>
public sealed record ReadingOutlier(string Reading, double WavelengthNm, double StudentizedResidual);
