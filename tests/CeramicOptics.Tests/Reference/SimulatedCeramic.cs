using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// An invented ceramic as it truly is: absorption, reduced scattering and a phase function, none of which the library
/// is told. Scattering is a mixture of two Henyey-Greenstein functions and an isotropic part, or that of grains by
/// Rayleigh, Gans and Debye, which changes with wavelength.
/// </summary>
internal sealed class SimulatedCeramic
{
    private const int Moments = 12, Angles = 400;

    private readonly double[][] _moments;
    private readonly Func<double, Func<double>, double> _draw;

    private SimulatedCeramic(
        string name, double index, double reduced, double power, double absorption, double blue, double[][] moments,
        Func<double, Func<double>, double> draw)
    {
        (Name, Index, _moments, _draw) = (name, index, moments, draw);
        ReducedPerMm = [.. Wavelengths.Select(nm => reduced * Math.Pow(nm / 550, -power))];
        AbsorptionPerMm = [.. Wavelengths.Select(nm => absorption * (0.6 + (blue * Math.Exp(-(nm - 400) / 80))))];
    }

    /// <summary>Wavelengths of everything in the simulated laboratory.</summary>
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Range(400, 700, 20);

    private static IEnumerable<double> Wavelengths => Enumerable.Range(0, Grid.Count).Select(i => Grid[i]);

    public string Name { get; }

    /// <summary>True refractive index.</summary>
    public double Index { get; }

    /// <summary>Reduced scattering at each wavelength.</summary>
    public IReadOnlyList<double> ReducedPerMm { get; }

    /// <summary>Absorption at each wavelength.</summary>
    public IReadOnlyList<double> AbsorptionPerMm { get; }

    /// <summary>A layer of it in the independent solver.</summary>
    public PlaneSolver.Slab Layer(PlaneSolver solver, int wavelength, double mm)
    {
        double[] moments = _moments[wavelength];
        return solver.Layer(
            Index, AbsorptionPerMm[wavelength], ReducedPerMm[wavelength] / (1 - moments[1]), moments, mm);
    }

    /// <summary>Scattering by a mixture, the same at all wavelengths.</summary>
    /// <param name="name">Name.</param>
    /// <param name="index">Refractive index.</param>
    /// <param name="reduced">Reduced scattering at 550 nm, 1/mm.</param>
    /// <param name="power">It falls with this power of the wavelength.</param>
    /// <param name="absorption">Absorption about 550 nm, 1/mm.</param>
    /// <param name="blue">How much it rises into the blue.</param>
    /// <param name="mixture">The phase function.</param>
    public static SimulatedCeramic OfMixture(
        string name, double index, double reduced, double power, double absorption, double blue,
        PhaseMixture mixture) => new(
            name, index, reduced, power, absorption, blue,
            [.. Wavelengths.Select(_ => mixture.Moments(Moments))], (_, uniform) => mixture.Draw(uniform));

    /// <summary>Scattering by grains of one size.</summary>
    /// <param name="name">Name.</param>
    /// <param name="index">Refractive index.</param>
    /// <param name="reduced">Reduced scattering at 550 nm, 1/mm.</param>
    /// <param name="power">It falls with this power of the wavelength.</param>
    /// <param name="absorption">Absorption about 550 nm, 1/mm.</param>
    /// <param name="blue">How much it rises into the blue.</param>
    /// <param name="size">π times the diameter over the wavelength in the ceramic, at 550 nm.</param>
    public static SimulatedCeramic OfGrains(
        string name, double index, double reduced, double power, double absorption, double blue, double size) => new(
            name, index, reduced, power, absorption, blue,
            [.. Wavelengths.Select(nm => OfGrain(size * 550 / nm))],
            (nm, uniform) => DrawFromGrain(size * 550 / nm, uniform));

    /// <summary>A ceramic drawn at random, from clear glass-ceramic to opaque zirconia.</summary>
    public static SimulatedCeramic Draw(Random random, string name)
    {
        double Between(double from, double to) => from + ((to - from) * random.NextDouble());
        bool isZirconia = random.NextDouble() < 0.5;
        double index = isZirconia ? Between(2.1, 2.2) : Between(1.5, 1.56);
        double reduced = isZirconia
            ? Math.Exp(Between(Math.Log(3), Math.Log(18)))
            : Math.Exp(Between(Math.Log(1.5), Math.Log(12)));
        double power = Between(0.6, 1.8), absorption = reduced * Math.Exp(Between(Math.Log(0.002), Math.Log(0.02)));
        double blue = Between(1, 5);
        return random.NextDouble() < 0.5
            ? OfMixture(name, index, reduced, power, absorption, blue, new PhaseMixture(
                Between(0.6, 0.92), Between(-0.4, 0), Between(0, 0.15), Between(0, 0.4)))
            : OfGrains(name, index, reduced, power, absorption, blue, Between(0.5, 3.5));
    }

    /// <summary>A disc that white shines through: reduced optical thickness of about 3 or less.</summary>
    public double DiscMm => Math.Round(Math.Min(1, Math.Max(0.3, 3.2 / ReducedPerMm[Grid.Count / 2])), 1);

    /// <summary>Photons on a layer of it over a tile in glycerine, with smooth faces.</summary>
    public LateralMonteCarlo Photons(int wavelength, double mm, double tile, ulong seed, double? discRadiusMm = null) =>
        new([
            new TransportLayer(
                AbsorptionPerMm[wavelength], ReducedPerMm[wavelength] / (1 - _moments[wavelength][1]), 0, mm, Index),
            new TransportLayer(0, 0, 0, 1e-6, CouplingMedium.Glycerine.RefractiveIndex.Constant)],
            SimulatedBench.TileIndex, _ => tile, seed)
        {
            Phase = uniform => _draw(Grid[wavelength], uniform),
            DiscRadiusMm = discRadiusMm ?? double.PositiveInfinity, Side = LateralMonteCarlo.Rim.Polished,
        };

    // By rejection: the function is largest forward, 2.
    private static double DrawFromGrain(double size, Func<double> uniform)
    {
        while (true)
        {
            double cosine = (2 * uniform()) - 1;
            if (2 * uniform() < Grain(size, cosine))
            {
                return cosine;
            }
        }
    }

    // (1 + cos² θ) (3 j1(q)/q)², q = 2 x sin(θ/2) [Bohren, Huffman 1983, 6.1].
    private static double Grain(double size, double cosine)
    {
        double q = Math.Max(1e-3, 2 * size * Math.Sqrt((1 - cosine) / 2));
        double form = 3 * (Math.Sin(q) - (q * Math.Cos(q))) / (q * q * q);
        return (1 + (cosine * cosine)) * form * form;
    }

    private static double[] OfGrain(double size)
    {
        double[] moments = new double[Moments + 1];
        double all = 0;
        for (int i = 0; i < Angles; i++)
        {
            double cosine = (2 * (i + 0.5) / Angles) - 1, value = Grain(size, cosine), before = 0, at = 1;
            all += value;
            for (int m = 0; m <= Moments; m++)
            {
                moments[m] += value * at;
                (before, at) = (at, ((((2 * m) + 1) * cosine * at) - (m * before)) / (m + 1));
            }
        }

        return [.. moments.Select(moment => moment / all)];
    }
}
