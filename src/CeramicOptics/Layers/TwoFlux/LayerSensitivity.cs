namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Reflectance of a layer on a backing and its partial derivatives.</summary>
/// <param name="Reflectance">R, 0 to 1.</param>
/// <param name="ByThicknessPerMm">dR/dt = S - 2 (K + S) R + S R², 1/mm.</param>
/// <param name="ByAbsorptionMm">dR/dK, mm; 0 or negative.</param>
/// <param name="ByScatteringMm">dR/dS, mm.</param>
/// <param name="ByBacking">dR/dRg, 0 to 1.</param>
internal readonly record struct LayerSensitivity(
    double Reflectance, double ByThicknessPerMm, double ByAbsorptionMm, double ByScatteringMm, double ByBacking);
