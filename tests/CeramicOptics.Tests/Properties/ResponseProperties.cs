using CeramicOptics.Layers.TwoFlux;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>
/// A compiled stack keeps to its stated bound, whatever the layers: against direct evaluation at random thicknesses.
/// </summary>
public class ResponseProperties
{
    [Property(MaxTest = Cases.Some, Arbitrary = [typeof(Generators)])]
    public void The_bound_holds_in_two_flux_theory(
        CeramicInput ceramic, LayerInput below, StumpInput stump, Fraction from, Fraction at, Fraction choice) =>
        Bound_holds("two-flux", ceramic, below, stump, from.Value, at.Value, choice.Value);

    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void The_bound_holds_in_radiative_transfer(
        CeramicInput ceramic, LayerInput below, StumpInput stump, Fraction from, Fraction at, Fraction choice) =>
        Bound_holds("transport", ceramic, below, stump, from.Value, at.Value, choice.Value);

    /// <summary>
    /// Batches of any length, over grids of any length and one thickness or two, against walls one by one.
    /// </summary>
    [Property(MaxTest = 10, Arbitrary = [typeof(Generators)])]
    public void Many_walls_at_once_are_those_of_each(CeramicInput input, StumpInput stump, Fraction from, Fraction step)
    {
        foreach (int wavelengths in (int[])[4, 8, 13, 31])
        {
            WavelengthGrid grid = WavelengthGrid.Range(400, 400 + (10 * (wavelengths - 1)), 10);
            Material Of(string name, double k, double s) => new(
                name, TwoFluxModel.Instance,
                new AbsorptionSpectrum(grid, [.. Enumerable.Range(0, wavelengths).Select(i => k / (1 + i))]),
                new ScatteringSpectrum(grid, [.. Enumerable.Range(0, wavelengths).Select(i => s / (1 + (0.03 * i)))]),
                1.5);
            Substrate body = Substrate.FromInternalReflectance(
                "body", new ReflectanceSpectrum(grid, [.. Enumerable.Range(0, wavelengths).Select(
                    i => stump.Blue + ((stump.Red - stump.Blue) * i / wavelengths))]), 1.5);
            LayerStack stack = new(
                [new Layer(Of("upper", input.KBlue, input.S550), 1), new Layer(Of("lower", 0.1, 1), 0.5)], body);
            ThicknessRange range = new(0.2, 3);
            foreach (int varied in (int[])[1, 2])
            {
                StackResponse response = stack.Compile(
                    MeasurementGeometry.DiffuseSpecularIncluded,
                    [.. Enumerable.Range(0, varied).Select(layer => new VariableThickness(layer, range))]);
                for (int walls = 0; walls <= 19; walls++)
                {
                    double[] mm = [.. Enumerable.Range(0, walls * varied).Select(
                        i => 0.2 + (2.8 * ((from.Value + (i * step.Value)) % 1)))];
                    double[] values = new double[walls * wavelengths];
                    response.Reflectance(mm, body, values);
                    for (int wall = 0; wall < walls; wall++)
                    {
                        ReflectanceSpectrum one = response.Reflectance(
                            body, mm.AsSpan(wall * varied, varied).ToArray());
                        for (int i = 0; i < wavelengths; i++)
                        {
                            Assert.InRange(
                                values[(wall * wavelengths) + i], one[i] - 1e-13, one[i] + 1e-13);
                        }
                    }
                }
            }
        }
    }

    /// <summary>Sums of random coefficients, one wall and a batch, against plain loops.</summary>
    [Fact]
    public void Sums_are_those_of_plain_loops()
    {
        Random random = new(5);
        double[] Draw(int count, double from, double to) =>
            [.. Enumerable.Range(0, count).Select(_ => from + ((to - from) * random.NextDouble()))];
        foreach (int n in (int[])[1, 3, 7, 8, 9, 15, 16, 17, 31, 81])
        {
            foreach (int nodes in (int[])[1, 2, 3, 25])
            {
                double[] rows = Draw(nodes * 4 * n, -0.5 / nodes, 0.5 / nodes), factors = Draw(nodes * 8, -1, 1),
                    g = Draw(Math.Max(8, n), 0, 1), batch = new double[8 * n], one = new double[n];
                ResponseKernel kernel = new(rows, n);
                kernel.Batch(factors, g, batch);
                for (int wall = 0; wall < 8; wall++)
                {
                    double[] own = [.. Enumerable.Range(0, nodes).Select(node => factors[(node * 8) + wall])];
                    double Sum(int function, int i) =>
                        Enumerable.Range(0, nodes).Sum(node => own[node] * rows[(((node * 4) + function) * n) + i]);
                    kernel.One(own, g, one);
                    double[] passing = new double[n];
                    kernel.Passing(own, passing);
                    for (int i = 0; i < n; i++)
                    {
                        double expected = Math.Max(0, Sum(0, i) + (Sum(1, i) * g[i] / (1 - (Sum(2, i) * g[i]))));
                        Assert.Equal(expected, one[i], 1e-14);
                        Assert.Equal(expected, batch[(wall * n) + i], 1e-14);
                        Assert.Equal(Sum(3, i), passing[i], 1e-14);
                    }
                }
            }
        }
    }

    // A ceramic over a layer of any strength, up to one that is clear or black; ranges from nothing or not; every
    // geometry; one thickness or two.
    private static void Bound_holds(
        string model, CeramicInput input, LayerInput below, StumpInput stump, double from, double at, double choice)
    {
        WallData data = WallData.Coarse(model);
        Material ceramic = data.Make("ceramic", input.KFloor, input.KBlue, input.S550, input.Index);
        Material under = data.Make("under", Math.Min(below.K, 50), 0, Math.Min(below.S, 50), 1.5);
        Substrate body = data.Stump("body", stump.Blue, stump.Red);
        LayerStack stack = new(
            [new Layer(ceramic, 1), new Layer(under, Math.Min(below.ThicknessMm, 2))], body,
            choice > 0.8 ? CouplingMedium.Water : null);
        MeasurementGeometry geometry = (MeasurementGeometry)(int)(5.99 * choice);
        ThicknessRange wall = new(from < 0.3 ? 0 : from, 0.5 + (3 * input.DiscMm));
        double mm = Math.Min(wall.MaxMm, wall.MinMm + (at * (wall.MaxMm - wall.MinMm)));
        VariableThickness first = new(0, wall);
        bool isOfTwo = choice < 0.2;
        ThicknessRange film = new(0, 0.2);
        StackResponse response = stack.Compile(geometry, isOfTwo ? [first, new VariableThickness(1, film)] : [first]);
        LayerStack direct = isOfTwo
            ? stack.WithThickness(0, mm).WithThickness(1, 0.2 * from)
            : stack.WithThickness(0, mm);
        double[] thicknesses = isOfTwo ? [mm, 0.2 * from] : [mm];
        foreach (Substrate substrate in (Substrate[])[body, data.Stump("black", 0, 0), data.Stump("white", 1, 1)])
        {
            ReflectanceSpectrum expected = direct.WithSubstrate(substrate).Reflectance(geometry);
            ReflectanceSpectrum found = response.Reflectance(substrate, thicknesses);
            for (int i = 0; i < data.Grid.Count; i++)
            {
                Assert.InRange(found[i], expected[i] - response.ErrorBound, expected[i] + response.ErrorBound);
            }
        }

        TransmittanceSpectrum passing = direct.Transmittance(geometry), passed = response.Transmittance(thicknesses);
        Assert.InRange(
            Enumerable.Range(0, data.Grid.Count).Max(i => Math.Abs(passing[i] - passed[i])), 0, response.ErrorBound);
    }
}
