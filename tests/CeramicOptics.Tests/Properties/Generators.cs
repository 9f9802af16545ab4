using CeramicOptics.Layers.TwoFlux;
using FsCheck;
using FsCheck.Fluent;

namespace CeramicOptics.Tests.Properties;

/// <summary>One layer at one wavelength: coefficients from none to strong, thickness from film to block.</summary>
public sealed record LayerInput(double K, double S, double ThicknessMm);

/// <summary>A share of light, 0 to 1, ends included.</summary>
public sealed record Fraction(double Value);

/// <summary>An index of refraction between air and zirconia.</summary>
public sealed record Index(double Value);

/// <summary>A colour a body can have.</summary>
public sealed record ColorInput(double L, double A, double B)
{
    public Lab Lab => new(L, A, B);
}

/// <summary>
/// A ceramic by a few numbers: level and slope of scattering, level and blue edge of absorption, index, thickness of a
/// disc.
/// </summary>
public sealed record CeramicInput(
    double S550, double SlopePower, double KFloor, double KBlue, double Index, double DiscMm)
{
    /// <summary>Thirteen wavelengths, which fill no whole number of vectors; each is a case of its own.</summary>
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 25);

    public Material Material() => Material(TwoFluxModel.Instance);

    public Material Material(IOpticalModel model)
    {
        double[] k = new double[Grid.Count], s = new double[Grid.Count];
        for (int i = 0; i < k.Length; i++)
        {
            k[i] = KFloor + (KBlue * Math.Exp(-(Grid[i] - 400) / 60));
            s[i] = S550 * Math.Pow(Grid[i] / 550, -SlopePower);
        }

        return new Material("ceramic", model, new AbsorptionSpectrum(Grid, k), new ScatteringSpectrum(Grid, s), Index);
    }
}

/// <summary>A stump by level and slope of its internal reflectance.</summary>
public sealed record StumpInput(double Blue, double Red)
{
    public Substrate Substrate(string name)
    {
        WavelengthGrid grid = CeramicInput.Grid;
        double[] values = new double[grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = Blue + ((Red - Blue) * i / (values.Length - 1));
        }

        return Layers.Substrate.FromInternalReflectance(name, new ReflectanceSpectrum(grid, values), 1.54);
    }
}

/// <summary>Named generators of physical inputs.</summary>
public static class Generators
{
    public static Arbitrary<LayerInput> Layers() =>
        (from k in OrZero(1e-8, 1e3)
         from s in OrZero(1e-8, 1e3)
         from t in OrZero(1e-4, 50)
         select new LayerInput(k, s, t)).ToArbitrary();

    public static Arbitrary<Fraction> Fractions() =>
        Gen.Frequency((1, Gen.Constant(0.0)), (1, Gen.Constant(1.0)), (8, Uniform(0, 1)))
            .Select(value => new Fraction(value)).ToArbitrary();

    public static Arbitrary<Index> Indices() => Uniform(1, 2.5).Select(value => new Index(value)).ToArbitrary();

    public static Arbitrary<ColorInput> Colors() =>
        (from l in Uniform(1, 99)
         from a in Uniform(-60, 60)
         from b in Uniform(-60, 60)
         select new ColorInput(l, a, b)).ToArbitrary();

    public static Arbitrary<CeramicInput> Ceramics() =>
        (from s in LogUniform(0.8, 15)
         from power in Uniform(0, 2)
         from floor in LogUniform(0.002, 0.2)
         from blue in LogUniform(0.01, 1)
         from index in Uniform(1.45, 2.2)
         from disc in Uniform(0.3, 1.2)
         select new CeramicInput(s, power, floor, blue, index, disc)).ToArbitrary();

    public static Arbitrary<StumpInput> Stumps() =>
        (from blue in Uniform(0.005, 0.6)
         from red in Uniform(0.01, 0.8)
         select new StumpInput(blue, red)).ToArbitrary();

    private static Gen<double> OrZero(double min, double max) =>
        Gen.Frequency((1, Gen.Constant(0.0)), (6, LogUniform(min, max)));

    private static Gen<double> LogUniform(double min, double max) =>
        Uniform(Math.Log(min), Math.Log(max)).Select(Math.Exp);

    private static Gen<double> Uniform(double min, double max) =>
        Gen.Choose(0, 1_000_000).Select(step => min + ((max - min) * step / 1e6));
}
