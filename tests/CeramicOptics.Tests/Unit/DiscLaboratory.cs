using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Discs;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Invented laboratories that read discs of one ceramic with every error that a plan of discs knows of: noise of each
/// reading, thickness of each disc, each tile, the instrument's scale.
/// </summary>
internal sealed class DiscLaboratory(WallData data, Material truth, DiscPlanOptions options, Restoration crown)
{
    private readonly double[] _tiles = [0.04, 0.85];

    public Backing[] Backings { get; } = [.. new[] { 0.04, 0.85 }.Select(reflects => Tile(data, reflects))];

    /// <summary>Discs read without any error.</summary>
    public DiscSet Exact(params double[] thicknessesMm) => Read(thicknessesMm, null);

    /// <summary>
    /// Standard deviation of the answer over laboratories, each of which reads the discs, fits them and answers; by the
    /// stack itself, not by the engine of decisions.
    /// </summary>
    public double Spread(DiscGoal goal, int laboratories, params double[] thicknessesMm)
    {
        Random random = new(11);
        double[] answers = [.. Enumerable.Range(0, laboratories).Select(_ => Answer(goal, DiscCharacterization.Find(
            Read(thicknessesMm, random), new CharacterizationOptions { Model = truth.Model }).ToMaterial()))];
        double mean = answers.Average();
        return Math.Sqrt(answers.Sum(value => (value - mean) * (value - mean)) / (laboratories - 1));
    }

    /// <summary>The thickness where the difference falls to the limit, by bisection, or the difference.</summary>
    public double Answer(DiscGoal goal, Material found)
    {
        Zone zone = crown.Zones[0];
        Restoration made = crown.WithCore(new Ceramic("made up", 1, found));
        double Difference(double mm) => WallData.Worst(
            made.StackOver(zone.Stump, mm), zone.Reference, 0, made.Criterion, Colorimeter.D65TwoDegree);
        if (goal == DiscGoal.Difference)
        {
            return Difference(zone.AvailableMm);
        }

        (double low, double high) = (0.2, 3);
        while (high - low > 1e-5)
        {
            double middle = (low + high) / 2;
            (low, high) = Difference(middle) > made.Criterion.Limit ? (middle, high) : (low, middle);
        }

        return high;
    }

    private DiscSet Read(double[] thicknessesMm, Random? random)
    {
        double Normal(double deviation) => random is null ? 0 : deviation * WallData.Gauss(random);
        double scale = 1 + Normal(options.InstrumentScale);
        Substrate[] tiles = [.. _tiles.Select(reflects =>
            Tile(data, reflects + Normal(options.BackingReflectance)).Substrate)];
        List<DiscReading> readings = [];
        for (int d = 0; d < thicknessesMm.Length; d++)
        {
            double mm = thicknessesMm[d] + Normal(options.ThicknessStandardUncertaintyMm);
            for (int b = 0; b < tiles.Length; b++)
            {
                double[] values = new LayerStack([new Layer(truth, mm)], tiles[b], Backings[b].Coupling)
                    .Reflectance().Values.ToArray();
                readings.Add(DiscReading.Reflectance(
                    $"disc {d + 1}, tile {b + 1}", thicknessesMm[d],
                    new ReflectanceSpectrum(
                        data.Grid, [.. values.Select(value =>
                            (scale * value) + Normal(options.ReadingStandardUncertainty))]),
                    Backings[b], MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large,
                    options.ReadingStandardUncertainty, options.ThicknessStandardUncertaintyMm));
            }
        }

        return new DiscSet(truth.Name, truth.RefractiveIndex, readings);
    }

    private static Backing Tile(WallData data, double reflects) => new(
        Substrate.FromInternalReflectance(
            reflects < 0.5 ? "black tile" : "white tile", ReflectanceSpectrum.Uniform(data.Grid, reflects), 1.5),
        CouplingMedium.Glycerine);
}
