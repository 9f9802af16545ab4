namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Crowns predicted from simulated disc readings with the library's defaults, one source of error at a time and all
/// together. Eight invented ceramics; walls of 0.6, 1 and 1.5 mm, a translucent and an opaque cement, two stumps.
/// </summary>
/// <param name="photons">Packets of each reading through a window at each of seven wavelengths.</param>
/// <param name="seed">Other seeds, other errors.</param>
internal sealed class SimulatedCrownStudy(int photons, int seed)
{
    private const double Black = 0.012, White = 0.93, WindowMm = 2, DiscRadiusMm = 6;
    private const int PhotonStep = 50;

    private static readonly double[] Walls = [0.6, 1.0, 1.5];

    private static readonly SimulatedBench.Faces Smooth = new(0, 0), RoughDisc = new(0.15, 0.4),
        RoughCrown = new(0.05, 0.3);

    private static readonly IReadOnlyList<double>[] Stumps =
        [SimulatedBench.Slope(0.08, 0.3), SimulatedBench.Slope(0.4, 0.6)];

    private readonly Dictionary<(string, double, bool), double[]> _kept = [];

    /// <summary>The ceramics; discs of 1 mm, thinner where white would not shine through.</summary>
    public static IReadOnlyList<SimulatedCeramic> Ceramics { get; } =
    [
        SimulatedCeramic.OfMixture("translucent glass-ceramic", 1.53, 2, 1, 0.02, 2.5, new(0.85, -0.2, 0.05, 0.2)),
        SimulatedCeramic.OfGrains("medium glass-ceramic", 1.53, 4.5, 1.3, 0.05, 2.5, 3),
        SimulatedCeramic.OfMixture("opaque glass-ceramic", 1.53, 9, 1, 0.1, 2.5, new(0.9, -0.3, 0.1, 0.1)),
        SimulatedCeramic.OfGrains("fine glass-ceramic", 1.53, 3, 1.6, 0.03, 3, 1),
        SimulatedCeramic.OfMixture("translucent zirconia", 2.15, 4, 1, 0.02, 2.5, new(0.8, 0, 0, 0.3)),
        SimulatedCeramic.OfGrains("medium zirconia", 2.15, 9, 0.8, 0.04, 2.5, 2.5),
        SimulatedCeramic.OfMixture("opaque zirconia", 2.15, 16, 1, 0.06, 2.5, new(0.85, -0.2, 0.1, 0.3)),
        SimulatedCeramic.OfGrains("fine zirconia", 2.15, 6, 1.4, 0.05, 3, 1.2),
    ];

    /// <summary>What may be wrong; sizes are standard deviations.</summary>
    public sealed record Source(string Name)
    {
        public bool IsRough { get; init; }

        /// <summary>Of each reading at each wavelength.</summary>
        public double Noise { get; init; }

        /// <summary>Of the disc: of the operator, and of each piece.</summary>
        public double DiscMm { get; init; }

        public double Tile { get; init; }

        /// <summary>Share of the disc that lies dry.</summary>
        public double Dry { get; init; }

        public double Index { get; init; }

        /// <summary>Of the wall; the film of cement is off by half of it.</summary>
        public double WallMm { get; init; }

        /// <summary>Through a window of 2 mm radius, on a wide disc or on one of 6 mm radius.</summary>
        public bool HasWindow { get; init; }

        public bool IsOnDisc { get; init; }

        /// <summary>False where the laboratory does not tell the window.</summary>
        public bool IsTold { get; init; } = true;

        public bool IsRandom => Noise > 0 || DiscMm > 0 || Tile > 0 || Dry > 0 || Index > 0 || WallMm > 0;
    }

    private static readonly Source Everything = new("all together, large area")
    {
        IsRough = true, Noise = 0.003, DiscMm = 0.01, Tile = 0.005, Dry = 0.02, Index = 0.01, WallMm = 0.02,
    };

    public static IReadOnlyList<Source> Sources { get; } =
    [
        new("phase function alone, large area"),
        new("rough faces") { IsRough = true },
        new("noise of readings, 0.003") { Noise = 0.003 },
        new("thickness of the disc, 0.01 mm of the operator and 0.01 mm of each disc") { DiscMm = 0.01 },
        new("tiles, 0.005 white and 0.001 black") { Tile = 0.005 },
        new("seating: 2 % of the disc dry") { Dry = 0.02 },
        new("refractive index, 0.01") { Index = 0.01 },
        new("thickness of the crown, 0.02 mm, and of the film, 0.01 mm") { WallMm = 0.02 },
        new("noise and thicknesses, large area") { Noise = 0.003, DiscMm = 0.01, WallMm = 0.02 },
        new("the same, means of three readings") { Noise = 0.0017, DiscMm = 0.01, WallMm = 0.02 },
        Everything,
        new("window of 2 mm radius") { HasWindow = true },
        new("the same on a disc of 6 mm radius") { HasWindow = true, IsOnDisc = true },
        new("window, noise and thicknesses") { HasWindow = true, Noise = 0.003, DiscMm = 0.01, WallMm = 0.02 },
        Everything with { Name = "all together through the window", HasWindow = true },
        new("window not stated") { HasWindow = true, IsTold = false },
        Everything with { Name = "all together, window not stated", HasWindow = true, IsTold = false },
    ];

    /// <summary>CIEDE2000 (D65, 2°) between crown and prediction, for every crown of one ceramic.</summary>
    public IEnumerable<double> Errors(SimulatedCeramic ceramic, Source source, IOpticalModel model, int repeat)
    {
        int number = Ceramics.TakeWhile(other => other != ceramic).Count();
        Random random = new((seed * 10_000) + (repeat * 100) + number);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
            * Math.Cos(2 * Math.PI * random.NextDouble());
        SimulatedBench bench = new(ceramic)
        {
            Disc = source.IsRough ? RoughDisc : Smooth, Crown = source.IsRough ? RoughCrown : Smooth,
        };
        double mm = ceramic.DiscMm, real = mm + (source.DiscMm * Normal()) + (source.DiscMm * Normal());
        double black = Black + (source.Tile * 0.2 * Normal()), white = White + (source.Tile * Normal());
        double dry = source.Dry * Math.Abs(Normal());
        double[] Read(double tile, double nominal) => [.. bench.ReadDisc(real, tile, dry).Select((value, i) =>
            (value * (source.HasWindow ? Kept(ceramic, nominal, source.IsOnDisc)[i] : 1))
                + (source.Noise * Normal()))];
        ReadingArea area = !source.HasWindow || !source.IsTold ? ReadingArea.Large
            : source.IsOnDisc ? ReadingArea.OnDisc(WindowMm, WindowMm, DiscRadiusMm, DiscSide.PolishedInAir)
            : ReadingArea.Circular(WindowMm, WindowMm);
        Material found = SimulatedBench.Characterize(
            ceramic.Name, ceramic.Index + (source.Index * Normal()), mm, Read(black, Black), Read(white, White),
            (Black, White), area, model, (Math.Max(source.Noise, 0.0005), source.DiscMm > 0 ? 0.014 : 0)).ToMaterial();
        foreach (SimulatedCement cement in (SimulatedCement[])[SimulatedCement.Translucent, SimulatedCement.Opaque])
        {
            Layer layer = new(cement.ToMaterial(model), SimulatedBench.CementFilmMm);
            foreach (IReadOnlyList<double> stump in Stumps)
            {
                Substrate body = SimulatedBench.Body("stump", stump, SimulatedBench.StumpIndex);
                foreach (double wall in Walls)
                {
                    double film = SimulatedBench.CementFilmMm + (source.WallMm / 2 * Normal());
                    Lab truth = SimulatedBench.Color(bench.ReadCrown(
                        wall + (source.WallMm * Normal()), cement, Math.Max(0.005, film), stump));
                    Lab predicted = SimulatedBench.Color(
                        new LayerStack([new Layer(found, wall), layer], body).Reflectance().Values.ToArray());
                    yield return ColorDifference.Ciede2000(truth, predicted);
                }
            }
        }
    }

    // Share that the window keeps, counted at some wavelengths, straight lines between them.
    private double[] Kept(SimulatedCeramic ceramic, double tile, bool isOnDisc)
    {
        if (_kept.TryGetValue((ceramic.Name, tile, isOnDisc), out double[]? known))
        {
            return known;
        }

        WavelengthGrid grid = SimulatedBench.Grid;
        int step = (int)(PhotonStep / grid.StepNm);
        int[] at = [.. Enumerable.Range(0, grid.Count).Where(i => i % step == 0), grid.Count - 1];
        double[] shares = [.. at.Select(i =>
        {
            ulong number = (ulong)((seed * 100_000) + (tile > 0.5 ? 5000 : 0) + i);
            RadialShares wide = ceramic.Photons(i, ceramic.DiscMm, tile, number)
                .Pencil(photons, 8);
            return isOnDisc
                ? ceramic.Photons(i, ceramic.DiscMm, tile, number + 50, DiscRadiusMm)
                    .Spot(photons, 8, WindowMm, WindowMm).Value / wide.Total().Value
                : wide.Reading(WindowMm, WindowMm).Value / wide.Total().Value;
        })];
        double[] kept = new double[grid.Count];
        for (int j = 1; j < at.Length; j++)
        {
            for (int i = at[j - 1]; i <= at[j]; i++)
            {
                double part = at[j] == at[j - 1] ? 0 : (i - at[j - 1]) / (double)(at[j] - at[j - 1]);
                kept[i] = shares[j - 1] + (part * (shares[j] - shares[j - 1]));
            }
        }

        return _kept[(ceramic.Name, tile, isOnDisc)] = kept;
    }
}
