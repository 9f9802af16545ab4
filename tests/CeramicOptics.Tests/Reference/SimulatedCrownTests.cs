using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Crowns of a simulated laboratory predicted from its discs; and the solver behind it against photons and a published
/// slab. The long run writes the table that docs/validation.md prints.
/// </summary>
public class SimulatedCrownTests
{
    /// <summary>
    /// Three of the eight ceramics, without noise: the theory against other scattering and rough faces.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(5)]
    public void Crowns_from_large_readings_without_noise_are_right_within_0_15(int ceramic)
    {
        SimulatedCrownStudy study = new(photons: 0, seed: 1);
        foreach (SimulatedCrownStudy.Source source in SimulatedCrownStudy.Sources.Take(2))
        {
            double[] errors = [.. study.Errors(
                SimulatedCrownStudy.Ceramics[ceramic], source, TransportModel.Default, 0)];
            Assert.InRange(errors.Average(), 0, 0.15);
            Assert.InRange(errors.Max(), 0, 0.4);
        }
    }

    /// <summary>Albedo 0.9, optical thickness 2, anisotropy 0.75, index 1: van de Hulst's table 35.</summary>
    [Fact]
    public void The_solver_gives_the_published_slab()
    {
        PlaneSolver solver = new([], nodes: 16, degrees: 0.5);
        double[] moments = [.. Enumerable.Range(0, 25).Select(m => Math.Pow(0.75, m))];
        double reading = solver.Reading(
            solver.Under(solver.Layer(1, 0.1, 0.9, moments, 2), solver.Body(1, 0)));

        // Lit diffusely and seen along the normal is, by reciprocity, lit along the normal: 0.09739.
        Assert.InRange(reading, 0.09739 - 5e-4, 0.09739 + 5e-4);
    }

    /// <summary>A mixture and grains, smooth faces, against photons with the same constants.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    public void The_solver_agrees_with_photons(int which)
    {
        SimulatedCeramic ceramic = SimulatedCrownStudy.Ceramics[which];
        Estimate counted = ceramic.Photons(8, ceramic.DiscMm, 0.93, 5).Pencil(20_000, 8).Total();
        double solved = new SimulatedBench(ceramic).ReadDisc(ceramic.DiscMm, 0.93)[8];
        double noise = 4 * counted.StandardError;
        Assert.InRange(solved, counted.Value - noise, counted.Value + noise);
    }

    /// <summary>Faces that scatter neither lose nor make light: nothing absorbs over a white body.</summary>
    [Fact]
    public void Rough_faces_keep_all_light()
    {
        PlaneSolver solver = new([1.53, 1.5]);
        double[] moments = [.. Enumerable.Range(0, 13).Select(m => Math.Pow(0.6, m))];
        double reading = solver.Reading(solver.Under(1, 1.53, 0.3, solver.Under(
            solver.Layer(1.53, 0, 5, moments, 1), solver.Under(1.53, 1.5, 0.5, solver.Body(1.5, 1)))));
        Assert.InRange(reading, 1 - 1e-4, 1 + 1e-4);
    }

#if LONG_RUN
    /// <summary>All sources of error; about a quarter of an hour.</summary>
    [Fact]
    public void Crowns_are_predicted_within_the_stated_differences()
    {
        using StreamWriter table = new(Repository.PathOf("tests", "reference", "simulated_crowns.csv"));
        IReadOnlyList<SimulatedTables.CrownRow> rows = SimulatedTables.WriteCrowns(
            table, new SimulatedCrownStudy(photons: 20_000, seed: 1), repeats: 4);
        double Mean(string source) => rows.Single(
            row => row.Source == source && row.Theory is TransportModel).Mean;
        Assert.InRange(Mean("phase function alone, large area"), 0, 0.15);
        Assert.InRange(Mean("window of 2 mm radius"), 0, 0.3);
        Assert.InRange(Mean("window, noise and thicknesses"), 0, 0.5);
        Assert.InRange(Mean("window not stated"), 3, 8);
    }
#endif
}
