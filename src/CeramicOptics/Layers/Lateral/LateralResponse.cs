namespace CeramicOptics.Layers.Lateral;

/// <summary>How a stack at one wavelength answers to light that varies sideways as exp(i k x).</summary>
/// <param name="Own">Reading over a black body, at the frequency k of the light.</param>
/// <param name="Down">Light that reaches the body at k for light on the surface at k, each ray counted once.</param>
/// <param name="Up">Reading at k for a body that sends out light at k.</param>
/// <param name="Return">Light that returns to the body at k for a body that sends out light at k.</param>
/// <remarks>
/// At k = 0 this is the <see cref="SubstrateResponse"/> of the plane-parallel stack, with Exchange = Down times Up.
/// Light and detector are taken alike under all azimuths, which is exact for round spots and windows with a common
/// axis. All values are real because the mirror image of the stack is the stack.
/// </remarks>
internal readonly record struct LateralResponse(double Own, double Down, double Up, double Return)
{
    /// <summary>Reading over a body that has the reflectance g everywhere.</summary>
    public double Over(double g) => Own + (Down * Up * g / (1 - (Return * g)));
}
