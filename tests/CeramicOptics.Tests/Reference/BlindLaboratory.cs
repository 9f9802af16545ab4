using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// A laboratory of photons that the library knows nothing of: invented ceramics whose scattering is a mixture of
/// Rayleigh's and two Henyey-Greenstein functions, discs read over a black and a white body in glycerine through a
/// window, bonded crowns over two stumps. Light at 8 degrees with all light collected is di:8° by reciprocity.
/// </summary>
/// <param name="photons">Packets of each reading and crown at each wavelength.</param>
internal sealed class BlindLaboratory(int photons)
{
    private const double CementMm = 0.05, CementIndex = 1.52, StumpIndex = 1.54, TileIndex = 1.5, Black = 0.012,
        White = 0.93, Degrees = 8;

    private static readonly WavelengthGrid Fine = WavelengthGrid.Range(400, 700, 10);

    /// <summary>Wavelengths of readings and crowns.</summary>
    public WavelengthGrid Grid { get; init; } = WavelengthGrid.Range(400, 700, 50);

    /// <summary>Radius of spot and window.</summary>
    public double RadiusMm { get; init; } = 2;

    /// <summary>
    /// Invented ceramics: reduced scattering at 550 nm, absorption there, index, thickness of the disc, shares of
    /// Rayleigh's function and of the backward lobe (anisotropy -0.2); the rest scatters with 0.85.
    /// </summary>
    public static IReadOnlyList<Ceramic> Ceramics { get; } =
    [
        new("translucent glass-ceramic", 2.0, 0.02, 1.53, 0.8, 0.2, 0.05),
        new("medium glass-ceramic", 4.5, 0.05, 1.53, 0.8, 0.3, 0.1),
        new("opaque glass-ceramic", 9, 0.1, 1.53, 0.3, 0.15, 0.05),
        new("translucent zirconia", 4, 0.02, 2.15, 0.8, 0.3, 0),
        new("medium zirconia", 9, 0.04, 2.15, 0.5, 0.2, 0.1),
        new("opaque zirconia", 16, 0.06, 2.15, 0.3, 0.4, 0.1),
    ];

    /// <summary>CIEDE2000 (D65, 2°) between photons and prediction, with and without the correction.</summary>
    public IEnumerable<CrownError> Errors(Ceramic ceramic, IReadOnlyList<double> thicknessesMm)
    {
        ReadingArea area = ReadingArea.Circular(RadiusMm, RadiusMm);
        Disc black = Read(ceramic, Black, 1), white = Read(ceramic, White, 2);
        Material corrected = Found(ceramic, black.Through, white.Through, area);
        Material uncorrected = Found(ceramic, black.Through, white.Through, ReadingArea.Large);
        Material wide = Found(ceramic, black.Wide, white.Wide, ReadingArea.Large);
        ulong seed = 100;
        foreach (double stump in (double[])[0.15, 0.5])
        {
            foreach (double mm in thicknessesMm)
            {
                Lab truth = Color(Spectrum(i => Photons(ceramic, i, mm, true, StumpIndex, stump, seed++)
                    .Pencil(photons, Degrees).Total().Value));
                double Error(Material material) =>
                    ColorDifference.Ciede2000(truth, Color(Predicted(material, mm, stump)));
                yield return new CrownError(
                    ceramic.Name, mm, stump, Error(corrected), Error(uncorrected), Error(wide));
            }
        }
    }

    private static Lab Color(ReflectanceSpectrum spectrum)
    {
        // Straight lines between wavelengths, alike for photons and predictions.
        double[] fine = new double[Fine.Count];
        for (int i = 0; i < fine.Length; i++)
        {
            double at = (Fine[i] - spectrum.Grid.StartNm) / spectrum.Grid.StepNm;
            int low = Math.Min((int)at, spectrum.Grid.Count - 2);
            fine[i] = spectrum[low] + ((at - low) * (spectrum[low + 1] - spectrum[low]));
        }

        return Colorimeter.D65TwoDegree.ToLab(new ReflectanceSpectrum(Fine, fine));
    }

    private Disc Read(Ceramic ceramic, double body, ulong seed)
    {
        RadialShares[] shares = [.. Enumerable.Range(0, Grid.Count).Select(i =>
            Photons(ceramic, i, ceramic.DiscMm, false, TileIndex, body, (seed * 1000) + (ulong)i)
                .Pencil(photons, Degrees))];
        return new Disc(
            Spectrum(i => shares[i].Reading(RadiusMm, RadiusMm).Value), Spectrum(i => shares[i].Total().Value));
    }

    private ReflectanceSpectrum Predicted(Material material, double mm, double stump)
    {
        Material cement = new(
            "cement", material.Model, AbsorptionSpectrum.Uniform(Grid, 0.06), ScatteringSpectrum.Uniform(Grid, 0.73),
            CementIndex);
        return new LayerStack([new Layer(material, mm), new Layer(cement, CementMm)], Body(stump, StumpIndex))
            .Reflectance();
    }

    private Material Found(
        Ceramic ceramic, ReflectanceSpectrum black, ReflectanceSpectrum white, ReadingArea area) =>
        DiscCharacterization.Find(DiscSet.OverBlackAndWhite(
            ceramic.Name, ceramic.Index, ceramic.DiscMm, black, white,
            new Backing(Body(Black, TileIndex), CouplingMedium.Glycerine),
            new Backing(Body(White, TileIndex), CouplingMedium.Glycerine),
            MeasurementGeometry.DiffuseSpecularIncluded, area, readingStandardUncertainty: 0.001)).ToMaterial();

    private LateralMonteCarlo Photons(
        Ceramic ceramic, int wavelength, double mm, bool isCrown, double bodyIndex, double body, ulong seed)
    {
        double nm = Grid[wavelength], reduced = ceramic.ReducedPerMm * Math.Pow(nm / 550, -1);
        double absorption = ceramic.AbsorptionPerMm * (0.6 + (2.5 * Math.Exp(-(nm - 400) / 80)));
        double rayleigh = ceramic.Rayleigh, backward = ceramic.Backward;
        double anisotropy = (0.85 * (1 - rayleigh - backward)) - (0.2 * backward);
        TransportLayer own = new(absorption, reduced / (1 - anisotropy), 0, mm, ceramic.Index);

        // The cement scatters as the ceramic does: reduced scattering 0.983 per mm.
        TransportLayer below = isCrown
            ? new TransportLayer(0.03, 0.983 / (1 - anisotropy), 0, CementMm, CementIndex)
            : new TransportLayer(0, 0, 0, 1e-6, CouplingMedium.Glycerine.RefractiveIndex.Constant);
        return new LateralMonteCarlo([own, below], bodyIndex, _ => body, seed)
        {
            Phase = uniform =>
            {
                double which = uniform();
                return which < rayleigh ? PhaseFunction.Rayleigh(uniform)
                    : PhaseFunction.HenyeyGreenstein(which < rayleigh + backward ? -0.2 : 0.85, uniform());
            },
        };
    }

    private Substrate Body(double reflectance, double index) =>
        Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, reflectance), index);

    private ReflectanceSpectrum Spectrum(Func<int, double> value) =>
        new(Grid, [.. Enumerable.Range(0, Grid.Count).Select(value)]);

    public sealed record Ceramic(
        string Name, double ReducedPerMm, double AbsorptionPerMm, double Index, double DiscMm, double Rayleigh,
        double Backward);

    /// <summary>CIEDE2000 of one crown: discs through the window, uncorrected, and read by a large area.</summary>
    public readonly record struct CrownError(
        string Ceramic, double Mm, double Stump, double Corrected, double Uncorrected, double Large);

    private sealed record Disc(ReflectanceSpectrum Through, ReflectanceSpectrum Wide);
}
