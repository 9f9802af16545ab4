namespace CeramicOptics.Layers;

/// <summary>
/// How a stack at one wavelength answers to a Lambertian body of internal reflectance g below it: R = Own + Exchange g
/// / (1 - Return g).
/// </summary>
/// <param name="Own">Reading over a black body.</param>
/// <param name="Exchange">
/// Share of the light that reaches the body times the share of the body's light that reaches the detector.
/// </param>
/// <param name="Return">Share of the body's light that the stack sends back to it, 0 to 1.</param>
/// <param name="Passing">Share of the instrument's light that reaches the body, each ray counted once.</param>
/// <remarks>
/// Exact in two-flux theory and in radiative transfer, because the body forgets the direction of the light it receives.
/// </remarks>
internal readonly record struct SubstrateResponse(double Own, double Exchange, double Return, double Passing)
{
    public double Over(double g) => Own + (Exchange * g / (1 - (Return * g)));
}
