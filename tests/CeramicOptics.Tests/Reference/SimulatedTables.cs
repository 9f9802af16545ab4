using System.Globalization;
using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Tests.Reference;

/// <summary>Tables of the long runs, which docs/validation.md prints.</summary>
internal static class SimulatedTables
{
    private const double Acceptable = 1.8;

    private static readonly IOpticalModel[] Theories = [TransportModel.Default, TwoFluxModel.Instance];

    private static readonly string[] Sizes = ["up to 0.9", "0.9 to 1.8", "above 1.8"];

    /// <summary>Errors of predicted crowns, a row for each source and theory.</summary>
    public static IReadOnlyList<CrownRow> WriteCrowns(TextWriter table, SimulatedCrownStudy study, int repeats)
    {
        List<CrownRow> rows = [];
        table.WriteLine("source,theory,crowns,mean,standard error,95 %,largest");
        foreach (SimulatedCrownStudy.Source source in SimulatedCrownStudy.Sources)
        {
            foreach (IOpticalModel theory in Theories)
            {
                double[][] discs = [.. SimulatedCrownStudy.Ceramics.SelectMany(
                    ceramic => Enumerable.Range(0, source.IsRandom ? repeats : 1).Select(
                        repeat => study.Errors(ceramic, source, theory, repeat).ToArray()))];
                double[] all = [.. discs.SelectMany(each => each).Order()];

                // Crowns of one disc share its errors.
                double mean = all.Average(), squares = discs.Sum(each => Math.Pow(each.Average() - mean, 2));
                rows.Add(new CrownRow(source.Name, theory, mean, all[(int)Math.Ceiling(0.95 * all.Length) - 1]));
                Write(
                    table, $"\"{source.Name}\"", theory.Name, all.Length, mean,
                    Math.Sqrt(squares / (discs.Length * (discs.Length - 1.0))), rows[^1].Percentile95, all[^1]);
            }
        }

        return rows;
    }

    /// <summary>
    /// How often stated intervals hold, a row for each theory and reference, and for masking references three more by
    /// the size of the stated difference.
    /// </summary>
    public static IReadOnlyList<CoverageRow> WriteCoverage(TextWriter table, int ceramics, int seed)
    {
        List<CoverageRow> rows = [];
        table.WriteLine("theory,against,stated,crowns,held,below,above,mean width,stated acceptable,acceptable");
        foreach (IOpticalModel theory in Theories)
        {
            SimulatedPractice practice = new(theory, seed);
            ILookup<string, SimulatedPractice.Outcome> outcomes = Enumerable.Range(0, ceramics).AsParallel()
                .AsOrdered().SelectMany(practice.Crowns).ToLookup(each => each.Against);
            foreach (IGrouping<string, SimulatedPractice.Outcome> group in outcomes)
            {
                rows.Add(WriteCoverage(table, theory, group.Key, "all", [.. group]));
            }

            foreach (IGrouping<string, SimulatedPractice.Outcome> group in outcomes.Where(one => one.Key != "target"))
            {
                foreach (IGrouping<int, SimulatedPractice.Outcome> size in group.GroupBy(SizeOf)
                    .OrderBy(one => one.Key))
                {
                    rows.Add(WriteCoverage(table, theory, group.Key, Sizes[size.Key], [.. size]));
                }
            }
        }

        return rows;
    }

    /// <summary>
    /// Errors of crowns predicted from discs without noise, for tests/reference/own_error.py, which fits the laws.
    /// </summary>
    public static void WriteOwnErrors(TextWriter table, int ceramics, int seed)
    {
        table.WriteLine("theory,index,tau,x,dL,da,db");
        for (int number = 0; number < ceramics; number++)
        {
            Random random = new(seed + number);
            SimulatedCeramic ceramic = SimulatedCeramic.Draw(random, $"ceramic {number}");
            SimulatedBench bench = new(ceramic)
            {
                Disc = new(0.2 * random.NextDouble(), 0.4 * random.NextDouble()),
                Crown = new(0.1 * random.NextDouble(), 0.4 * random.NextDouble()),
            };
            double mm = Math.Round(ceramic.DiscMm * Math.Exp(-0.5 + random.NextDouble()), 2);
            double[] black = bench.ReadDisc(mm, 0.012), white = bench.ReadDisc(mm, 0.93);
            foreach (IOpticalModel theory in Theories)
            {
                CharacterizationResult result = SimulatedBench.Characterize(
                    ceramic.Name, ceramic.Index, mm, black, white, (0.012, 0.93), ReadingArea.Large, theory,
                    (0.0005, 0.001));
                if (!result.IsComplete)
                {
                    continue;
                }

                Material found = result.ToMaterial();
                Layer cement = new(SimulatedCement.Translucent.ToMaterial(theory), SimulatedBench.CementFilmMm);
                foreach (double wall in (double[])[0.4, 0.7, 1.0, 1.5, 2.0])
                {
                    foreach ((double from, double to) in ((double, double)[])[(0.05, 0.05), (0.1, 0.4), (0.4, 0.65)])
                    {
                        double[] stump = SimulatedBench.Slope(from, to);
                        Lab truth = SimulatedBench.Color(bench.ReadCrown(
                            wall, SimulatedCement.Translucent, SimulatedBench.CementFilmMm, stump));
                        Lab stated = SimulatedBench.Color(new LayerStack(
                            [new Layer(found, wall), cement],
                            SimulatedBench.Body("stump", stump, SimulatedBench.StumpIndex))
                            .Reflectance().Values.ToArray());
                        Write(
                            table, theory is TwoFluxModel ? "two" : "rt", ceramic.Index,
                            found.Scattering[(SimulatedBench.Grid.Count - 1) / 2] * wall, Math.Log(wall / mm),
                            stated.L - truth.L, stated.A - truth.A, stated.B - truth.B);
                    }
                }
            }
        }
    }

    private static int SizeOf(SimulatedPractice.Outcome outcome) =>
        outcome.Predicted <= Acceptable / 2 ? 0 : outcome.Predicted <= Acceptable ? 1 : 2;

    private static CoverageRow WriteCoverage(
        TextWriter table, IOpticalModel theory, string against, string stated,
        IReadOnlyList<SimulatedPractice.Outcome> outcomes)
    {
        double Share(Func<SimulatedPractice.Outcome, bool> which) => outcomes.Average(each => which(each) ? 1 : 0);
        CoverageRow row = new(theory, against, stated, outcomes.Count, Share(each => each.IsHeld));
        Write(
            table, theory.Name, against, stated, outcomes.Count, row.Held, Share(each => each.Real < each.Stated.Low),
            Share(each => each.Real > each.Stated.High), outcomes.Average(each => each.Stated.High - each.Stated.Low),
            outcomes.Average(each => each.Acceptable), Share(each => each.Real <= Acceptable));
        return row;
    }

    private static void Write(TextWriter table, params object[] values) => table.Write(string.Join(",", values.Select(
        value => string.Format(CultureInfo.InvariantCulture, "{0:0.####}", value))) + "\n");

    public sealed record CrownRow(string Source, IOpticalModel Theory, double Mean, double Percentile95);

    public sealed record CoverageRow(
        IOpticalModel Theory, string Against, string Stated, int Crowns, double Held);
}
