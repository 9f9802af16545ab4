using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// A practice whose every input is uncertain as it tells the library: ceramics drawn at random and characterized from
/// one disc, crowns made of them, and whether the true difference of each lies in the interval that was stated for it.
/// </summary>
/// <param name="model">The theory asked.</param>
/// <param name="seed">Other seeds, other ceramics and errors.</param>
internal sealed class SimulatedPractice(IOpticalModel model, int seed)
{
    private const double DiscReading = 0.003, DiscMm = 0.01, CementScale = 0.1, TargetSpread = 1.5;
    private const int CrownsEach = 3;

    private static readonly InputUncertainty Inputs = new() { CementMm = 0.01 };

    private static readonly double[] Good = SimulatedBench.Slope(0.45, 0.65);

    /// <summary>
    /// All crowns of one ceramic, each compared with its target, the infinitely thick wall, and the wall over a good
    /// substrate; none where the library refuses the disc as too opaque.
    /// </summary>
    public IReadOnlyList<Outcome> Crowns(int ceramicNumber)
    {
        Random random = new((seed * 10_000) + ceramicNumber);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
            * Math.Cos(2 * Math.PI * random.NextDouble());
        SimulatedCeramic ceramic = SimulatedCeramic.Draw(random, $"ceramic {ceramicNumber}");
        SimulatedBench bench = new(ceramic)
        {
            Disc = new(0.2 * random.NextDouble(), 0.4 * random.NextDouble()),
            Crown = new(0.1 * random.NextDouble(), 0.4 * random.NextDouble()),
        };
        double mm = Math.Round(ceramic.DiscMm * Math.Exp(-0.4 + (0.8 * random.NextDouble())), 2);
        double realDisc = mm + (DiscMm * Normal());
        double[] Read(double tile) => [.. bench.ReadDisc(realDisc, tile)
            .Select(value => value + (DiscReading * Normal()))];

        double index = ceramic.Index + (Inputs.RefractiveIndex * Normal());
        double[] black = Read(0.012), white = Read(0.93);
        if (black.Zip(white, (b, w) => w - b).Min() < 4 * DiscReading)
        {
            return [];
        }

        CharacterizationResult result = SimulatedBench.Characterize(
            ceramic.Name, index, mm, black, white, (0.012, 0.93), ReadingArea.Large, model, (DiscReading, DiscMm));
        if (!result.IsComplete)
        {
            return [];
        }

        Material found = result.ToMaterial();
        double scale = 1 + (CementScale * Normal());
        SimulatedCement told = random.NextDouble() < 0.7 ? SimulatedCement.Translucent : SimulatedCement.Opaque;
        SimulatedCement real = new(told.AbsorptionPerMm * scale, told.ReducedPerMm * scale);
        Layer cement = new(
            told.ToMaterial(model, CoefficientUncertainty.OfScale(SimulatedBench.Grid, CementScale)),
            SimulatedBench.CementFilmMm);
        Lab infinite = SimulatedBench.Color(bench.ReadInfinite());
        List<Zone> zones = [];
        List<double> truths = [];
        ColorCriterion criterion = ColorCriterion.AcceptabilityThreshold;
        for (int crown = 0; crown < CrownsEach; crown++)
        {
            double wall = Math.Round(0.5 + (1.2 * random.NextDouble()), 2), dark = 0.05 + (0.35 * random.NextDouble());
            double[] stump = SimulatedBench.Slope(dark, dark + (0.3 * random.NextDouble()));
            Substrate body = SimulatedBench.Body("stump", stump, SimulatedBench.StumpIndex);
            Lab predicted = SimulatedBench.Color(
                new LayerStack([new Layer(found, wall), cement], body).Reflectance().Values.ToArray());
            Lab wish = new(
                predicted.L + (TargetSpread * Normal()), predicted.A + (TargetSpread * Normal()),
                predicted.B + (TargetSpread * Normal()));
            Lab wished = new(
                wish.L + (Inputs.TargetColor * Normal()), wish.A + (Inputs.TargetColor * Normal()),
                wish.B + (Inputs.TargetColor * Normal()));
            double realMm = wall + (Inputs.CoreMm * Normal());
            double film = Math.Max(0.005, SimulatedBench.CementFilmMm + (Inputs.CementMm * Normal()));
            double shift = Inputs.StumpReflectance * Normal();
            Lab color = SimulatedBench.Color(
                bench.ReadCrown(realMm, real, film, [.. stump.Select(r => Math.Max(0, r + shift))]));
            Lab overGood = SimulatedBench.Color(bench.ReadCrown(realMm, real, film, Good));
            void Add(string against, ColorReference reference, Lab other)
            {
                zones.Add(new Zone($"{crown} {against}", body, wall, reference));
                truths.Add(criterion.Difference(other, color));
            }

            Add("target", Target.FromColor(
                "target", wish, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded), wished);
            Add("infinite", MaskingReference.SelfBacked, infinite);
            Add("good", MaskingReference.Over(
                SimulatedBench.Body("good", Good, SimulatedBench.StumpIndex)), overGood);
        }

        Restoration restoration = new(zones, new Ceramic(ceramic.Name, 1, found), cement, criterion)
        {
            WallRange = new ThicknessRange(0.4, 2), Uncertainty = Inputs,
        };
        UncertaintyResult stated = PredictionUncertainty.Find(restoration);
        return [.. stated.Zones.Select((zone, i) => new Outcome(
            zones[i].Name.Split(' ')[1], ceramic.Name, zones[i].AvailableMm, mm, zone.Difference, truths[i],
            zone.Interval95, zone.Acceptable.Value))];
    }

    /// <summary>One crown: what was stated and what is true.</summary>
    public sealed record Outcome(
        string Against, string Ceramic, double WallMm, double DiscMm, double Predicted, double Real, Interval Stated,
        double Acceptable)
    {
        public bool IsHeld => Real >= Stated.Low && Real <= Stated.High;
    }
}
