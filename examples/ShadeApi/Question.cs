namespace CeramicOptics.Examples.ShadeApi;

/// <summary>What a client asks about one crown.</summary>
/// <param name="TargetL">L* of the neighbour, illuminant D65, 2 degrees.</param>
/// <param name="TargetA">Its a*.</param>
/// <param name="TargetB">Its b*.</param>
/// <param name="StumpReflectance">Reflectance of the stump, 0 to 1, the same at all wavelengths.</param>
/// <param name="AvailableMm">Available thickness, mm.</param>
/// <param name="StructuralMm">Smallest wall that strength allows, mm.</param>
public sealed record Question(
    double TargetL, double TargetA, double TargetB, double StumpReflectance, double AvailableMm, double StructuralMm);
