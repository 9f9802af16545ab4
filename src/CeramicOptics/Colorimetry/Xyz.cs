namespace CeramicOptics.Colorimetry;

/// <summary>CIE tristimulus values, scaled so that Y = 100 for the perfect reflecting diffuser.</summary>
/// <param name="X">Tristimulus value X.</param>
/// <param name="Y">Tristimulus value Y, the luminance factor in percent.</param>
/// <param name="Z">Tristimulus value Z.</param>
/// <remarks>The default is black. Which observer and illuminant they belong to is the caller's to know.</remarks>
public readonly record struct Xyz(double X, double Y, double Z)
{
    /// <summary>Chromaticity coordinate x = X / (X + Y + Z); 0 for black.</summary>
    public double ChromaticityX => Share(X);

    /// <summary>Chromaticity coordinate y = Y / (X + Y + Z); 0 for black.</summary>
    public double ChromaticityY => Share(Y);

    private double Share(double value) => X + Y + Z == 0 ? 0 : value / (X + Y + Z);
}
