namespace CeramicOptics.Layers;

/// <summary>Real refractive index of a medium, constant or with Cauchy dispersion n = A + B / λ².</summary>
/// <remarks>
/// Immutable. The default is not an index (0) and is refused wherever an index is used. A plain number converts to a
/// constant index. Orders of size (common practice, no source): water 1.33, glycerine 1.47, cements 1.50 to 1.55,
/// dentine 1.54, glass-ceramics 1.50 to 1.56, zirconia 2.1 to 2.2.
/// </remarks>
public readonly record struct RefractiveIndex
{
    internal const double Minimum = 1, Maximum = 4;

    /// <summary>An index n = A + B / λ².</summary>
    /// <param name="constant">A, 1 to 4.</param>
    /// <param name="cauchyNm2">B in nm², -1e6 to 1e6; 0 for no dispersion.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public RefractiveIndex(double constant, double cauchyNm2 = 0)
    {
        Constant = Guard.InRange(constant, Minimum, Maximum, "", "refractive index");
        CauchyNm2 = Guard.InRange(cauchyNm2, -1e6, 1e6, "nm²");
    }

    /// <summary>A, the index at infinite wavelength.</summary>
    internal double Constant { get; }

    /// <summary>B of Cauchy's formula, nm².</summary>
    internal double CauchyNm2 { get; }

    /// <summary>Vacuum and, to three decimals, air.</summary>
    internal static RefractiveIndex Air { get; } = new(1);

    /// <summary>The index at a wavelength.</summary>
    /// <param name="wavelengthNm">Wavelength, 200 to 3000 nm.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index there is outside 1 to 4.</exception>
    public double At(double wavelengthNm)
    {
        Guard.InRange(wavelengthNm, 200, 3000, "nm");
        return Guard.InRange(
            Constant + (CauchyNm2 / (wavelengthNm * wavelengthNm)), Minimum, Maximum, "", "refractive index");
    }

    /// <summary>A constant index.</summary>
    /// <param name="constant">1 to 4.</param>
    public static implicit operator RefractiveIndex(double constant) => new(constant);

    /// <inheritdoc/>
    public override string ToString() =>
        CauchyNm2 == 0 ? Guard.Text(Constant) : $"{Guard.Text(Constant)} + {Guard.Text(CauchyNm2)} nm²/λ²";
}
