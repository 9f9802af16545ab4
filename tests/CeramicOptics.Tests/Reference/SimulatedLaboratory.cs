using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// An invented laboratory whose crowns are made by physics that the library does not know: forward scattering, batches,
/// a furnace, cement films, grinding and stump readings with errors, all drawn at random.
/// </summary>
/// <remarks>
/// The true colour of each crown is evaluated directly, by radiative transfer with a mean cosine of 0.6; what the
/// library knows is a material characterized from one simulated disc by its default theory.
/// </remarks>
internal sealed class SimulatedLaboratory
{
    public const string Ceramic = "Meadow ceramic";
    private const double FilmMm = 0.05, ReadingNoise = 0.2, FurnaceColor = 0.5;

    private static readonly TransportModel Exact = new(streams: 12, anisotropy: 0.6);
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 20);
    private static readonly string[] Batches = ["A", "B", "C"], Furnaces = ["left", "right"];
    private static readonly Backing Black = new(Body("black tile", 0.012, 0), CouplingMedium.Glycerine),
        White = new(Body("white tile", 0.88, 0), CouplingMedium.Glycerine);

    private static readonly Substrate[] Stumps =
        [Body("light stump", 0.45, 0.2), Body("brown stump", 0.12, 0.2), Body("dark stump", 0.05, 0.06)];

    private readonly Random _random;
    private readonly Material _true;
    private readonly double _wallBias, _filmBias, _stumpBias;
    private readonly double[] _batchK, _batchS;
    private readonly Lab[] _furnaces;
    private readonly Dictionary<string, Restoration> _plans = [];
    private readonly Dictionary<string, Lab> _colors = [];
    private DateTime _day = new(2026, 1, 5);
    private int _count;

    /// <summary>A laboratory; bias multiplies all that its pieces have in common, 0 for a faultless one.</summary>
    public SimulatedLaboratory(int seed, double bias = 1)
    {
        _random = new Random(seed);
        bool isZirconia = seed % 2 == 1;
        double s550 = isZirconia ? 4 + (6 * _random.NextDouble()) : 2 + (4 * _random.NextDouble());
        double floor = 0.02 + (0.03 * _random.NextDouble()), blue = 0.15 + (0.25 * _random.NextDouble());
        double index = isZirconia ? 2.15 : 1.53;
        Material disc = Make(Ceramic, Exact, index, floor, blue, s550);
        Known = Characterized(disc, s550 > 6 ? 0.4 : 0.8);

        // Fired as a crown the ceramic is not quite what its disc was.
        _true = Times(disc, Math.Exp(bias * Normal(0.10)), Math.Exp(bias * Normal(0.06)));
        (_wallBias, _filmBias, _stumpBias) = (bias * Normal(0.04), bias * Normal(0.015), bias * Normal(0.015));
        _batchK = [.. Batches.Select(_ => Math.Exp(bias * Normal(0.07)))];
        _batchS = [.. Batches.Select(_ => Math.Exp(bias * Normal(0.04)))];
        _furnaces = [.. Furnaces.Select(
            _ => new Lab(
                bias * Normal(FurnaceColor), bias * Normal(FurnaceColor / 2), bias * Normal(FurnaceColor)))];
        TrueCement = Make("Tern cement", Exact, 1.52, 0.02, 0.1, 0.9);
        KnownCement = Make("Tern cement", TransportModel.Default, 1.52, 0.02, 0.1, 0.9);
    }

    /// <summary>The ceramic as its laboratory knows it.</summary>
    public Material Known { get; }

    private Material TrueCement { get; }

    private Material KnownCement { get; }

    /// <summary>The restoration of a piece as planned.</summary>
    public Restoration PlanOf(DeliveredPiece piece) => _plans[piece.Name];

    /// <summary>The true colour of a piece, without the noise of the reading.</summary>
    public Lab TrueColorOf(DeliveredPiece piece) => _colors[piece.Name];

    /// <summary>The next crowns, of batch A or B, or of another one; from a given shift of CIEDE2000 on.</summary>
    public DeliveredRecord Deliver(DeliveredRecord record, int count, string? batch = null, double drift = 0)
    {
        // A drift goes one way; which, is drawn once.
        Lab way = new(Normal(1), Normal(0.6), Normal(1));
        List<DeliveredPiece> pieces = [];
        for (int i = 0; i < count; i++)
        {
            pieces.Add(Next(batch ?? Batches[_random.Next(2)], way, drift));
        }

        return record.Append(pieces);
    }

    private DeliveredPiece Next(string batch, Lab way, double drift)
    {
        string name = $"crown {++_count}";
        int b = Array.IndexOf(Batches, batch), furnace = _random.Next(2);
        double wallMm = Math.Round(0.6 + (0.8 * _random.NextDouble()), 2);
        Substrate stump = Stumps[_random.Next(Stumps.Length)];
        Restoration plan = new(
            [new Zone("body", stump, wallMm, MaskingReference.SelfBacked)], new Ceramic("Meadow", 2, Known),
            new Layer(KnownCement, FilmMm), ColorCriterion.AcceptabilityThreshold);
        _plans.Add(name, plan);
        Lab predicted = Colorimeter.D65TwoDegree.ToLab(plan.StackOver(stump, wallMm).Reflectance());

        LayerStack made = new(
            [
                new Layer(Times(_true, _batchK[b], _batchS[b]), wallMm + _wallBias + Normal(0.02)),
                new Layer(TrueCement, Math.Max(0.005, FilmMm + _filmBias + Normal(0.01))),
            ],
            Shifted(stump, _stumpBias + Normal(0.007)));
        Lab bonded = Colorimeter.D65TwoDegree.ToLab(made.Reflectance()), offset = _furnaces[furnace];
        Lab color = Drifted(new Lab(bonded.L + offset.L, bonded.A + offset.A, bonded.B + offset.B), way, drift);
        _colors.Add(name, color);
        Lab read = new(
            color.L + Normal(ReadingNoise), color.A + Normal(ReadingNoise), color.B + Normal(ReadingNoise));
        _day = _day.AddDays(1);
        return new DeliveredPiece(
            name, _day, Ceramic, batch, wallMm, stump.Name, Reading(predicted), Reading(read))
        {
            Cement = KnownCement.Name,
            Furnace = Furnaces[furnace],
        };
    }

    private static ColorReading Reading(Lab color) =>
        ColorReading.FromColor(color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    // The same way until CIEDE2000 is what is wanted.
    private static Lab Drifted(Lab from, Lab way, double difference)
    {
        double low = 0, high = 20;
        Lab At(double t) => new(from.L + (t * way.L), from.A + (t * way.A), from.B + (t * way.B));
        for (int i = 0; i < 40 && difference > 0; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = ColorDifference.Ciede2000(from, At(middle)) < difference ? (middle, high) : (low, middle);
        }

        return At(difference > 0 ? high : 0);
    }

    private Material Characterized(Material disc, double mm)
    {
        const double Noise = 0.001, ThicknessMm = 0.01;
        double trueMm = mm + Normal(ThicknessMm);
        DiscReading Read(string name, Backing backing) => DiscReading.Reflectance(
            name, mm,
            new ReflectanceSpectrum(
                Grid, [.. new LayerStack([new Layer(disc, trueMm)], backing.Substrate, backing.Coupling).Reflectance()
                    .Values.ToArray().Select(value => value + Normal(Noise))]),
            backing, MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large, Noise, ThicknessMm);
        DiscSet discs = new(Ceramic, disc.RefractiveIndex, [Read("black", Black), Read("white", White)]);
        return DiscCharacterization.Find(discs).ToMaterial();
    }

    private static Material Make(
        string name, IOpticalModel model, double index, double floor, double blue, double s550) =>
        new(
            name, model,
            new AbsorptionSpectrum(Grid, Each(nm => floor + (blue * Math.Exp(-(nm - 400) / 60)))),
            new ScatteringSpectrum(Grid, Each(nm => s550 * Math.Pow(nm / 550, -0.6))), index);

    private static Material Times(Material material, double k, double s) => new(
        material.Name, material.Model,
        new AbsorptionSpectrum(Grid, [.. material.Absorption.Values.ToArray().Select(value => k * value)]),
        new ScatteringSpectrum(Grid, [.. material.Scattering.Values.ToArray().Select(value => s * value)]),
        material.RefractiveIndex);

    private static Substrate Body(string name, double at400, double rise) => Substrate.FromInternalReflectance(
        name, new ReflectanceSpectrum(Grid, Each(nm => at400 + (rise * (nm - 400) / 300))), 1.54);

    private static Substrate Shifted(Substrate stump, double by)
    {
        int s = Array.IndexOf(Stumps, stump);
        (double at400, double rise) = s switch { 0 => (0.45, 0.2), 1 => (0.12, 0.2), _ => (0.05, 0.06) };
        return Body(stump.Name, Math.Max(0.001, at400 + by), rise);
    }

    private static double[] Each(Func<double, double> of) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => of(Grid[i]))];

    private double Normal(double deviation)
    {
        double u = 1 - _random.NextDouble(), v = _random.NextDouble();
        return deviation * Math.Sqrt(-2 * Math.Log(u)) * Math.Cos(2 * Math.PI * v);
    }
}
