using CeramicOptics.Characterization;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Discs and bonded crowns of one simulated ceramic as they truly are, read at 8° in diffuse light over a large area.
/// </summary>
internal sealed class SimulatedBench(SimulatedCeramic ceramic)
{
    public const double CementIndex = 1.52, StumpIndex = 1.54, TileIndex = 1.5, CementFilmMm = 0.05;

    private readonly PlaneSolver _solver = new(
        [ceramic.Index, CementIndex, StumpIndex, TileIndex, CouplingMedium.Glycerine.RefractiveIndex.Constant], 7);

    private readonly Dictionary<(int, double), PlaneSolver.Slab> _slabs = [];

    public static WavelengthGrid Grid => SimulatedCeramic.Grid;

    /// <summary>Shares of the light that faces of discs and crowns throw diffusely.</summary>
    public Faces Disc { get; init; }

    public Faces Crown { get; init; }

    public SimulatedCeramic Ceramic => ceramic;

    /// <summary>A disc over a tile.</summary>
    /// <param name="mm">Its true thickness.</param>
    /// <param name="tile">True reflectance of the tile inside its own medium.</param>
    /// <param name="dryShare">Share of the disc that lies on air where the rest lies on glycerine.</param>
    public double[] ReadDisc(double mm, double tile, double dryShare = 0)
    {
        double Through(int i, double film) => _solver.Reading(_solver.Under(1, ceramic.Index, Disc.Upper, _solver.Under(
            Slab(i, mm), _solver.Under(ceramic.Index, film, Disc.Lower, _solver.Under(
                film, TileIndex, 0, _solver.Body(TileIndex, tile))))));
        double wet = CouplingMedium.Glycerine.RefractiveIndex.Constant;
        return [.. Enumerable.Range(0, Grid.Count).Select(i => dryShare == 0
            ? Through(i, wet)
            : ((1 - dryShare) * Through(i, wet)) + (dryShare * Through(i, 1)))];
    }

    /// <summary>A bonded crown.</summary>
    /// <param name="mm">True thickness of the ceramic.</param>
    /// <param name="cement">The cement.</param>
    /// <param name="filmMm">True thickness of its film.</param>
    /// <param name="stump">True reflectance of the stump at each wavelength, inside its own medium.</param>
    public double[] ReadCrown(double mm, SimulatedCement cement, double filmMm, IReadOnlyList<double> stump) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => _solver.Reading(_solver.Under(
            1, ceramic.Index, Crown.Upper, _solver.Under(
                Slab(i, mm), _solver.Under(ceramic.Index, CementIndex, Crown.Lower, _solver.Under(
                    cement.Layer(_solver, filmMm), _solver.Under(
                        CementIndex, StumpIndex, 0, _solver.Body(StumpIndex, stump[i]))))))))];

    /// <summary>The ceramic so thick that nothing shows through.</summary>
    public double[] ReadInfinite() => [.. Enumerable.Range(0, Grid.Count).Select(i => _solver.Reading(
        _solver.Under(1, ceramic.Index, Crown.Upper, _solver.Under(
            Slab(i, 20), _solver.Body(ceramic.Index, 0.5)))))];

    private PlaneSolver.Slab Slab(int wavelength, double mm)
    {
        if (!_slabs.TryGetValue((wavelength, mm), out PlaneSolver.Slab? slab))
        {
            _slabs[(wavelength, mm)] = slab = ceramic.Layer(_solver, wavelength, mm);
        }

        return slab;
    }

    /// <summary>Colour under D65 for 2°.</summary>
    public static Lab Color(IReadOnlyList<double> reflectances) =>
        Colorimeter.D65TwoDegree.ToLab(new ReflectanceSpectrum(Grid, [.. reflectances]));

    /// <summary>What a laboratory takes a disc for.</summary>
    /// <param name="name">Name.</param>
    /// <param name="index">Index that it believes.</param>
    /// <param name="mm">Thickness that it believes.</param>
    /// <param name="black">Readings over black.</param>
    /// <param name="white">Readings over white.</param>
    /// <param name="tiles">Reflectances of the tiles that it believes.</param>
    /// <param name="area">Area of its instrument.</param>
    /// <param name="model">The theory.</param>
    /// <param name="uncertainty">What it states: of readings, and of the thickness.</param>
    public static CharacterizationResult Characterize(
        string name, double index, double mm, IReadOnlyList<double> black, IReadOnlyList<double> white,
        (double Black, double White) tiles, ReadingArea area, IOpticalModel model,
        (double Reading, double Mm) uncertainty)
    {
        DiscReading Reading(string over, IReadOnlyList<double> values, double tile) => DiscReading.Reflectance(
            over, mm, new ReflectanceSpectrum(Grid, [.. values.Select(value => Math.Max(0, value))]),
            new Backing(Body(over, Enumerable.Repeat(tile, Grid.Count), TileIndex), CouplingMedium.Glycerine),
            MeasurementGeometry.DiffuseSpecularIncluded, area, uncertainty.Reading, uncertainty.Mm);
        DiscSet discs = new(
            name, index, [Reading("black", black, tiles.Black), Reading("white", white, tiles.White)]);
        return DiscCharacterization.Find(discs, new CharacterizationOptions { Model = model });
    }

    public static Substrate Body(string name, IEnumerable<double> reflectance, double index) =>
        Substrate.FromInternalReflectance(name, new ReflectanceSpectrum(Grid, [.. reflectance]), index);

    /// <summary>A reflectance that rises evenly from the shortest to the longest wavelength.</summary>
    public static double[] Slope(double from, double to) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => from + ((to - from) * i / (Grid.Count - 1)))];

    /// <summary>Shares of the light that the upper and the lower face throw diffusely.</summary>
    public readonly record struct Faces(double Upper, double Lower);
}
