using CeramicOptics.Data;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>A CIE standard colorimetric observer: three colour-matching functions at 5 nm, 360 to 830 nm.</summary>
/// <remarks>Source: ISO/CIE 11664-1, tables of CIE 15:2004. Immutable; the two instances are shared.</remarks>
public sealed class Observer
{
    private readonly double[] _x, _y, _z;

    private Observer(string name, double startNm, double stepNm, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z)
    {
        Name = name;
        Grid = new WavelengthGrid(startNm, stepNm, x.Length);
        (_x, _y, _z) = (x.ToArray(), y.ToArray(), z.ToArray());
    }

    /// <summary>CIE 1931 standard observer, 2 degree field.</summary>
    public static Observer Cie1931TwoDegree { get; } = new(
        "2°", CieTables.Cie1931ObserverStartNm, CieTables.Cie1931ObserverStepNm,
        CieTables.Cie1931ObserverX, CieTables.Cie1931ObserverY, CieTables.Cie1931ObserverZ);

    /// <summary>CIE 1964 standard observer, 10 degree field.</summary>
    public static Observer Cie1964TenDegree { get; } = new(
        "10°", CieTables.Cie1964ObserverStartNm, CieTables.Cie1964ObserverStepNm,
        CieTables.Cie1964ObserverX, CieTables.Cie1964ObserverY, CieTables.Cie1964ObserverZ);

    /// <summary>"2°" or "10°".</summary>
    public string Name { get; }

    /// <summary>Wavelengths of the functions.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The function x-bar.</summary>
    public ReadOnlySpan<double> X => _x;

    /// <summary>The function y-bar.</summary>
    public ReadOnlySpan<double> Y => _y;

    /// <summary>The function z-bar.</summary>
    public ReadOnlySpan<double> Z => _z;

    /// <inheritdoc/>
    public override string ToString() => Name;
}
