namespace CeramicOptics.Layers;

/// <summary>
/// How a stack at one wavelength answers to a Lambertian body of internal reflectance g below it:
/// R(g) = Own + Exchange g / (1 - Return g).
/// </summary>
/// <param name="Own">Reading over a black body.</param>
/// <param name="Exchange">Light to the body times light from the body to the detector.</param>
/// <param name="Return">Share of the body's light that the stack sends back to it, below 1.</param>
/// <param name="Passing">Share of the instrument's light that reaches the body, counted at its first arrival.</param>
internal readonly record struct SubstrateResponse(double Own, double Exchange, double Return, double Passing)
{
    public double Over(double g) => Own + (Exchange * g / (1 - (Return * g)));
}
