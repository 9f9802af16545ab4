using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>A compiled stack against the stack itself, evaluated at each thickness.</summary>
public class StackResponseTests
{
    private static readonly ThicknessRange Wall = new(0.2, 3);

    private static readonly double[] WallsMm = [0.2, 0.2001, 0.35, 0.7, 1.234, 2.2, 2.999, 3];

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Ceramic_on_cement_is_right_to_a_hundred_thousandth_and_a_hundredth_of_a_difference(string model)
    {
        WallData data = Coarse(model);
        foreach (double k in (double[])[0.02, 0.5])
        {
            foreach (double s in (double[])[1, 3, 8])
            {
                foreach (double index in (double[])[1.4, 1.54, 2.2])
                {
                    LayerStack stack = new(
                        [new Layer(data.Make("ceramic", k, 0, s, index), 1), new Layer(data.Film, 0.05)], data.Dark);
                    StackResponse response = stack.Compile(
                        MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, Wall)]);
                    Assert.InRange(response.ErrorBound, 1e-12, 1e-5);
                    foreach (double mm in WallsMm)
                    {
                        ReflectanceSpectrum direct = stack.WithThickness(0, mm)
                            .Reflectance(), fast = response.Reflectance(null, mm);
                        Assert.InRange(Largest(direct, fast), 0, response.ErrorBound);
                        Assert.InRange(
                            ColorDifference.Ciede2000(Colorimeter.D65TwoDegree.ToLab(direct),
                            Colorimeter.D65TwoDegree.ToLab(fast)), 0, 0.01);
                    }
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void All_geometries_and_substrates_of_one_index_are_served(string model)
    {
        WallData data = Coarse(model);
        LayerStack stack = new(
            [new Layer(data.Glaze, 0.1), new Layer(data.Body, 1), new Layer(data.Film, 0.05)], data.Dark);
        LayerStack ideal = stack.WithSubstrate(Substrate.White);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            StackResponse over = stack.Compile(geometry, [new VariableThickness(1, Wall)]), overIdeal = ideal.Compile(
                geometry, [new VariableThickness(1, Wall)]);
            foreach (double mm in WallsMm)
            {
                LayerStack direct = stack.WithThickness(1, mm);
                foreach (Substrate under in (Substrate[])[data.Dark, data.Good, Body(0), Body(0.5), Body(1)])
                {
                    Assert.InRange(
                        Largest(direct.WithSubstrate(under).Reflectance(geometry), over.Reflectance(under, mm)), 0,
                        over.ErrorBound);
                }

                foreach (Substrate under in (Substrate[])[Substrate.Black, Substrate.White])
                {
                    Assert.InRange(
                        Largest(direct.WithSubstrate(under).Reflectance(geometry), overIdeal.Reflectance(under, mm)), 0,
                        overIdeal.ErrorBound);
                }

                Assert.InRange(Largest(direct.Transmittance(geometry), over.Transmittance(mm)), 0, over.ErrorBound);
                double[] into = new double[data.Grid.Count];
                over.Reflectance([mm], data.Good, into);
                Assert.Equal(over.Reflectance(data.Good, mm).Values.ToArray(), into);
            }
        }

        Substrate Body(double level) =>
            Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(data.Grid, level), 1.54);
    }

    /// <summary>Core and veneer in fixed proportion, and a liner that takes its room from the ceramic.</summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Layers_follow_a_thickness_by_share_and_by_offset(string model)
    {
        WallData data = Coarse(model);
        LayerStack Stack(double veneer, double core, double liner) => new(
            [new Layer(data.Glaze, 0.05), new Layer(data.Enamel, veneer), new Layer(data.Body, core),
            new Layer(data.Dense, liner), new Layer(data.Film, 0.05)], data.Dark, CouplingMedium.Air);
        StackResponse shared = Stack(1, 1, 0.1).Compile(
            MeasurementGeometry.DiffuseSpecularExcluded,
            [new VariableThickness([new LayerPart(1, 0.3), new LayerPart(2, 0.7)], Wall)]);
        StackResponse veneered = Stack(0.4, 1, 0.1).Compile(
            MeasurementGeometry.DiffuseSpecularExcluded,
            [new VariableThickness([new LayerPart(2, 1, -0.4)], new ThicknessRange(0.4, 3))]);
        StackResponse lined = Stack(0.4, 1, 0).Compile(
            MeasurementGeometry.DiffuseSpecularExcluded,
            [new VariableThickness([new LayerPart(3), new LayerPart(2, -1, 1)], new ThicknessRange(0, 0.5))]);
        foreach (double share in (double[])[0, 0.01, 0.3, 0.77, 1])
        {
            Check(shared, 0.2 + (2.8 * share), mm => Stack(0.3 * mm, 0.7 * mm, 0.1));
            Check(veneered, 0.4 + (2.6 * share), mm => Stack(0.4, mm - 0.4, 0.1));
            Check(lined, 0.5 * share, mm => Stack(0.4, 1 - mm, mm));
        }

        static void Check(StackResponse response, double mm, Func<double, LayerStack> stack) =>
            Assert.InRange(
                Largest(stack(mm).Reflectance(response.Geometry), response.Reflectance(null, mm)), 0,
                response.ErrorBound + 1e-12);
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void Two_thicknesses_vary_together(string model)
    {
        WallData data = Coarse(model);
        LayerStack stack = new(
            [new Layer(data.Enamel, 0.5), new Layer(data.Body, 1), new Layer(data.Film, 0.05)], data.Dark);
        StackResponse response = stack.Compile(
            MeasurementGeometry.DiffuseSpecularIncluded,
            [new VariableThickness(0, new ThicknessRange(0, 1)), new VariableThickness(1, new ThicknessRange(0.3, 2))]);
        Assert.InRange(response.ErrorBound, 1e-12, 1e-5);
        foreach (double first in (double[])[0, 0.003, 0.2, 0.71, 1])
        {
            foreach (double second in (double[])[0.3, 0.55, 1.3, 2])
            {
                LayerStack direct = stack.WithThickness(0, first).WithThickness(1, second);
                Assert.InRange(
                    Largest(direct.WithSubstrate(data.Good).Reflectance(),
                    response.Reflectance(data.Good, first, second)), 0, response.ErrorBound);
                Assert.InRange(
                    Largest(direct.Transmittance(), response.Transmittance(first, second)), 0, response.ErrorBound);
            }
        }

        Assert.Contains(
            "2 thickness(es) vary but 1 are given",
            Assert.Throws<ArgumentException>(() => response.Reflectance(null, 1)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => response.Reflectance(null, 1.01, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => response.Reflectance(null, double.NaN, 1));
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_range_from_nothing_is_right_too(string model)
    {
        WallData data = Coarse(model);
        foreach (Material material in (Material[])[data.Body, data.Dense, data.Film])
        {
            LayerStack stack = new([new Layer(data.Glaze, 0.1), new Layer(material, 1)], data.Good);
            StackResponse response = stack.Compile(
                MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(1, new ThicknessRange(0, 2))]);
            Assert.InRange(response.ErrorBound, 1e-12, 1e-5);
            foreach (double mm in (double[])[0, 1e-4, 0.003, 0.02, 0.1, 0.5, 1.1, 2])
            {
                Assert.InRange(
                    Largest(stack.WithThickness(1, mm).Reflectance(), response.Reflectance(null, mm)), 0,
                    response.ErrorBound);
            }
        }

        LayerStack one = new([new Layer(data.Body, 0.8)], data.Good);
        Assert.Equal(
            one.Reflectance().Values.ToArray(),
            one.Compile(MeasurementGeometry.DiffuseSpecularIncluded,
            [new VariableThickness(0, new ThicknessRange(0.8, 0.8))]).Reflectance(null, 0.8).Values.ToArray(),
            (a, b) => Math.Abs(a - b) < 1e-14);
    }

    /// <summary>A layer of 100 mm hides what is below.</summary>
    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void An_infinitely_thick_layer_is_a_very_thick_one(string model)
    {
        WallData data = Coarse(model);
        LayerStack stack = new(
            [new Layer(data.Glaze, 0.1), new Layer(data.Enamel, 0.6), new Layer(data.Body, 1),
            new Layer(data.Film, 0.05)], data.Dark);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            for (int layer = 0; layer < 3; layer++)
            {
                Assert.InRange(
                    Largest(stack.WithThickness(layer, 100).Reflectance(geometry),
                    stack.InfiniteReflectance(layer, geometry)), 0, 1e-9);
            }
        }

        // Under a veneer that takes a share of the wall it depends on the wall.
        StackResponse response = stack.Compile(
            MeasurementGeometry.DiffuseSpecularIncluded,
            [new VariableThickness([new LayerPart(1, 0.4), new LayerPart(2, 0.6)], Wall)]);
        Assert.False(response.IsInfiniteConstant(2));
        Assert.True(response.IsInfiniteConstant(1));
        double[] infinite = response.InfiniteAtNodes(2);
        for (int node = 0; node < response.Nodes; node++)
        {
            double[] direct = stack.WithThickness(1, 0.4 * response.Axes[0].NodeMm(node))
                .InfiniteReflectance(2).Values.ToArray();
            Assert.Equal(
                direct, infinite.AsSpan(node * data.Grid.Count, data.Grid.Count).ToArray(),
                (a, b) => Math.Abs(a - b) < 1e-12);
        }
    }

    [Theory]
    [MemberData(nameof(Models), MemberType = typeof(WallData))]
    public void A_clear_layer_has_no_infinite_limit_and_is_named(string model)
    {
        WallData data = Coarse(model);
        double[] k = [0.1, 0, 0.1, 0.1], s = [3, 0, 3, 3];
        Material clear = With(data.Body, k, s, 1.5);
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => new LayerStack([new Layer(clear, 1)], data.Dark).InfiniteReflectance(0));
        Assert.Contains("'moved' neither absorbs nor scatters at 500 nm", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Materials_of_two_models_are_refused_by_name_with_the_way_out()
    {
        Material one = Coarse("two-flux").Body, other = Coarse("transport").Film;
        string message = Assert.Throws<ArgumentException>(
            () => new LayerStack([new Layer(one, 1), new Layer(other, 0.05)], Substrate.Black)).Message;
        Assert.Equal(
            "'body' has K and S of two-flux theory but 'film' those of radiative transfer (g = 0); one stack needs "
                + "one model. "
            + "Recalibration.Find turns the constants of one model into those of the other.", message);
        Material forward = new("forward", new TransportModel(16, 0.7), other.Absorption, other.Scattering, 1.5);
        Assert.Contains(
            "radiative transfer (g = 0.7)",
            Assert.Throws<ArgumentException>(() => new LayerStack([new Layer(other, 1), new Layer(forward, 1)],
            Substrate.Black)).Message, StringComparison.Ordinal);
        Assert.Equal(
            2,
            new LayerStack([new Layer(other, 1),
            new Layer(new("finer", new TransportModel(32), other.Absorption, other.Scattering, 1.5),
            1)], Substrate.Black).Layers.Count);
        Assert.True(one.Model.IsSameTheoryAs(TwoFluxModel.Instance));
    }

    [Fact]
    public void What_does_not_fit_is_refused_by_name()
    {
        WallData data = Coarse("two-flux");
        LayerStack stack = new([new Layer(data.Body, 1), new Layer(data.Film, 0.05)], data.Dark);
        VariableThickness body = new(0, Wall);
        StackResponse response = stack.Compile(MeasurementGeometry.DiffuseSpecularIncluded, [body]);
        Substrate denser = Substrate.FromInternalReflectance(
            "denser", ReflectanceSpectrum.Uniform(data.Grid, 0.2), 1.6);
        Refused(
            "'denser' has another refractive index than 'dark', over which the stack was compiled; compile it over "
                + "'denser'.", () => response.Reflectance(denser, 1));
        Refused("'ideal black' has another refractive index", () => response.Reflectance(Substrate.Black, 1));
        Refused(
            "post",
            () => response.Reflectance(Substrate.OpaqueMetal("post",
            ReflectanceSpectrum.Uniform(Fine("two-flux").Grid, 0.5)), 1));
        Refused("destination holds 3 values", () => response.Reflectance([1.0], data.Dark, new double[3]));
        Refused("1 thickness(es) vary but 2 are given", () => response.Reflectance(null, 1, 1));
        Refused("in [0.2, 3] mm but is 3.01 mm", () => response.Reflectance(null, 3.01));
        Refused(
            "One or two thicknesses can vary but 3 are given",
            () => stack.Compile(default, [body, new VariableThickness(1, Wall), body]));
        Refused("stands in both thicknesses", () => stack.Compile(default, [body, body]));
        Refused("at least 1 item", () => stack.Compile(default, []));
        Refused(
            "layer that varies must be in [0, 1] but is 2",
            () => stack.Compile(default, [new VariableThickness(2, Wall)]));
        Refused(
            "stands twice among the parts",
            () => _ = new VariableThickness([new LayerPart(0), new LayerPart(0)], Wall));
        Refused(
            "thickness of layer 0 must be in [0, 100] mm but is -0.3 mm",
            () => _ = new VariableThickness([new LayerPart(0, 1, -0.5)], Wall));
        Refused(
            "slope of a part must be in [-1, 1] but is 1.5",
            () => _ = new VariableThickness([new LayerPart(0, 1.5)], Wall));
        using CancellationTokenSource cancelled = new();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => stack.Compile(default, [body], cancelled.Token));

        static void Refused(string part, Action act) =>
            Assert.Contains(part, Assert.ThrowsAny<ArgumentException>(act).Message, StringComparison.Ordinal);
    }

    private static double Largest(Spectrum one, Spectrum other) =>
        Enumerable.Range(0, one.Grid.Count).Max(i => Math.Abs(one[i] - other[i]));
}
