namespace CeramicOptics.Colorimetry;

/// <summary>CIE tristimulus values, scaled so that Y = 100 for the perfect reflecting diffuser.</summary>
/// <param name="X">Tristimulus value X.</param>
/// <param name="Y">Tristimulus value Y, the luminance factor in percent.</param>
/// <param name="Z">Tristimulus value Z.</param>
/// <remarks>The default is black. The caller must keep track of their observer and illuminant.</remarks>
public readonly record struct Xyz(double X, double Y, double Z)
{
    /// <summary>Chromaticity coordinate x = X / (X + Y + Z); 0 for black.</summary>
    internal double ChromaticityX => Share(X);

    /// <summary>Chromaticity coordinate y = Y / (X + Y + Z); 0 for black.</summary>
    internal double ChromaticityY => Share(Y);

    /// <summary>CIE 1976 coordinates u' = 4 X / (X + 15 Y + 3 Z), v' = 9 Y / (X + 15 Y + 3 Z); 0 for black.</summary>
    internal (double U, double V) UniformChromaticity
    {
        get
        {
            double sum = X + (15 * Y) + (3 * Z);
            return sum == 0 ? (0, 0) : (4 * X / sum, 9 * Y / sum);
        }
    }

    private double Share(double value) => X + Y + Z == 0 ? 0 : value / (X + Y + Z);
}
