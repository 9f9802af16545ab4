using CeramicOptics.Layers.Transport;
using CeramicOptics.Tests.Reference;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Tests.Unit;

public class TransportSamplerTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(500, 600, 100);

    public static TheoryData<CouplingMedium?> Films => [null, CouplingMedium.Air, CouplingMedium.Glycerine];

    /// <summary>
    /// Nothing absorbs, so all light that comes in goes out again, and under diffuse light the stack looks white.
    /// </summary>
    [Theory]
    [MemberData(nameof(Films))]
    public void White_furnace_returns_all_light(CouplingMedium? film)
    {
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            SubstrateResponse response = new TransportSampler(
                Stack(0, 4, 0, 1, film), geometry, new TransportModel(24, 0.3))
                .At(0, [0.7, 0.05]);
            if (geometry is not (MeasurementGeometry.FortyFiveZero or MeasurementGeometry.ZeroFortyFive))
            {
                double trapped = geometry == MeasurementGeometry.DiffuseSpecularExcluded
                    ? Boundary.Fresnel(1, 2.15, 8)
                    : 0;
                Assert.Equal(1 - trapped, response.Over(1), 1e-9);
            }

            Assert.InRange(response.Over(0.5), response.Own, response.Over(1));
        }
    }

    /// <summary>
    /// Nothing absorbs and the body is white, so that all diffuse light comes out again, also through a window that
    /// sees a whole disc with a reflecting side; indices of two layers may differ by rounding alone.
    /// </summary>
    [Theory]
    [InlineData(2.3e-16)]
    [InlineData(1e-15)]
    [InlineData(1e-13)]
    [InlineData(1e-10)]
    [InlineData(1e-7)]
    public void White_furnace_returns_all_light_where_indices_differ_by_rounding(double difference)
    {
        foreach (double anisotropy in (double[])[0, 0.8])
        {
            TransportModel model = new(24, anisotropy);
            Layer Of(double index, double mm) => new(new Material(
                "white", model, AbsorptionSpectrum.Uniform(Grid, 0), ScatteringSpectrum.Uniform(Grid, 1), index), mm);
            foreach (CouplingMedium? film in (CouplingMedium?[])[null, CouplingMedium.Air])
            {
                LayerStack stack = new([Of(1.54, 0.5), Of(1.54 + difference, 0.8)], Substrate.White, film);
                foreach (MeasurementGeometry geometry in (MeasurementGeometry[])
                [
                    MeasurementGeometry.DiffuseSpecularIncluded, MeasurementGeometry.DiffuseDiffuse,
                    MeasurementGeometry.Internal,
                ])
                {
                    Assert.Equal(1, stack.Reflectance(geometry)[0], 1e-8);
                    Assert.Equal(
                        1, stack.Reflectance(geometry, ReadingArea.OnDisc(2, 2, 2, DiscSide.Reflecting))[0], 1e-6);
                }
            }
        }
    }

    /// <summary>Three times the larger of the changes that the documentation names.</summary>
    [Theory]
    [InlineData(6, 9, 12)]
    [InlineData(8, 12, 16)]
    [InlineData(10, 15, 20)]
    [InlineData(12, 18, 24)]
    [InlineData(64, 96, 128)]
    [InlineData(72, 54, 36)]
    public void The_estimate_of_its_own_error_is_three_times_the_largest_change(int streams, int one, int other)
    {
        const MeasurementGeometry geometry = MeasurementGeometry.FortyFiveZero;
        LayerStack With(int directions)
        {
            TransportModel model = new(directions, 0.6);
            return new LayerStack(
                [new Layer(new Material(
                    "layer", model, AbsorptionSpectrum.Uniform(Grid, 0.2), ScatteringSpectrum.Uniform(Grid, 1), 1.5),
                    0.5)],
                Substrate.Black);
        }

        double own = With(streams).Reflectance(geometry)[0];
        double largest = Math.Max(
            Math.Abs(With(one).Reflectance(geometry)[0] - own), Math.Abs(With(other).Reflectance(geometry)[0] - own));
        Assert.Equal(
            3 * largest, new TransportModel(streams, 0.6).ErrorEstimate(With(streams), geometry), 3.1e-8);
    }

    /// <summary>Helmholtz: light and view can be exchanged.</summary>
    [Theory]
    [MemberData(nameof(Films))]
    public void Light_and_view_can_be_exchanged(CouplingMedium? film)
    {
        LayerStack stack = Stack(0.1, 4, 0.05, 1, film);
        TransportModel model = new(24, 0.6);
        SubstrateResponse a = new TransportSampler(stack, MeasurementGeometry.FortyFiveZero, model).At(0, [0.4, 0.1]);
        SubstrateResponse b = new TransportSampler(stack, MeasurementGeometry.ZeroFortyFive, model).At(0, [0.4, 0.1]);
        Assert.Equal(a.Own, b.Own, 1e-9);
        Assert.Equal(a.Exchange, b.Exchange, 1e-9);
        Assert.Equal(a.Return, b.Return, 1e-12);
    }

    /// <summary>
    /// Monte Carlo over bodies of three reflectances, within four standard errors; what an open stack passes is what
    /// reaches the body.
    /// </summary>
    [Theory]
    [InlineData(null)]
    [InlineData(1.0)]
    public void Photons_agree_over_every_body(double? filmIndex)
    {
        const int Photons = 100_000;
        CouplingMedium? film = filmIndex is double index ? new CouplingMedium("film", index) : null;
        LayerStack stack = Stack(0.1, 3, 0.05, 1, film);
        List<TransportLayer> layers = [TransportLayer.FromTwoFlux(0.1, 3, 0, 0.4, 2.15), TransportLayer.FromTwoFlux(
            0.05, 1, 0, 0.1, 1.52)];
        if (filmIndex is double clear)
        {
            layers.Add(new TransportLayer(0, 0, 0, 0.001, clear));
        }

        SubstrateResponse response = new TransportSampler(
            stack, MeasurementGeometry.DiffuseDiffuse, new TransportModel())
            .At(0, [0.4, 0.1]);
        foreach (double body in (double[])[0, 0.5, 1])
        {
            AssertWithin(new MonteCarlo(layers, 1, 1.54, body, 5).Run(Photons).Reflected, response.Over(body), Photons);
        }

        AssertWithin(new MonteCarlo(layers, 1, 1.54, null, 6).Run(Photons).Transmitted, response.Passing, Photons);
    }

    /// <summary>
    /// The textbook form: layers of optical thickness 1e-7, single scattering, doubled with general-purpose matrices,
    /// no boundaries.
    /// </summary>
    [Theory]
    [InlineData(0.2, 3, 0.8, 0.02, 0.3)]
    [InlineData(0, 1, 0.3, 0, 2)]
    [InlineData(1, 0.01, 0.5, 0.3, 0.1)]
    [InlineData(0.001, 15, 3, 0.5, 0.05)]
    public void Doubling_agrees(double k, double s, double mm, double lowerK, double lowerMm)
    {
        LayerStack stack = new(
            [new Layer(Uniform("upper", k, s, 1), 1), new Layer(Uniform("lower", lowerK, 2, 1), 1)],
            Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, 0.5), 1));
        SubstrateResponse response = new TransportSampler(
            stack, MeasurementGeometry.DiffuseDiffuse, new TransportModel(48))
            .At(0, [mm, lowerMm]);
        foreach (double body in (double[])[0, 0.5, 1])
        {
            double expected = Doubled(
                [TransportLayer.FromTwoFlux(k, s, 0, mm, 1), TransportLayer.FromTwoFlux(lowerK, 2, 0, lowerMm, 1)],
                body);
            Assert.Equal(expected, response.Over(body), 1e-5);
        }
    }

    /// <summary>
    /// A clear layer between equal media changes nothing: what is below is the body itself, behind its boundaries
    /// (Saunderson 1942).
    /// </summary>
    [Fact]
    public void A_layer_without_substance_is_not_seen()
    {
        LayerStack stack = new(
            [new Layer(Uniform("clear", 0, 0, 1.5), 1)],
            Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, 0.6), 1.5));
        SubstrateResponse response = new TransportSampler(
            stack, MeasurementGeometry.DiffuseDiffuse, new TransportModel())
            .At(0, [1.0]);
        foreach (double body in (double[])[0, 0.6, 1])
        {
            Assert.Equal(Boundary.Diffuse(1, 1.5).OnBacking(body), response.Over(body), 1e-6);
        }
    }

    [Fact]
    public void Calls_in_any_order_give_the_same()
    {
        LayerStack stack = new(
            [new Layer(Uniform("glaze", 0.05, 0.5, 1.5), 1), new Layer(Uniform("ceramic", 0.1, 4, 2.1), 1),
            new Layer(Uniform("cement", 0.05, 1, 1.52), 1)],
            Substrate.Black, CouplingMedium.Air);
        TransportSampler kept = new(stack, MeasurementGeometry.DiffuseSpecularIncluded, new TransportModel(12));
        double[][] calls = [[0.1, 1, 0.1], [0.1, 1, 0.2], [0.1, 0.5, 0.2], [0.2, 0.5, 0.2], [0.2, 0.5, 0.2], [0, 0, 0],
            [0.1, 1, 0.1]];
        foreach (double[] call in calls)
        {
            kept.InfiniteAt(0, 1, call);
            SubstrateResponse fresh = new TransportSampler(
                stack, MeasurementGeometry.DiffuseSpecularIncluded, new TransportModel(12))
                .At(0, call);
            Assert.Equal(fresh, kept.At(0, call));
        }
    }

    [Fact]
    public void Known_stacks_are_sampled_without_allocation()
    {
        TransportSampler sampler = new(
            Stack(0.1, 4, 0.05, 1, null), MeasurementGeometry.DiffuseSpecularIncluded, new TransportModel());
        double[] mm = [0.5, 0.05];
        sampler.At(0, mm);
        mm[0] = 0.6;
        sampler.At(0, mm);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 20; i++)
        {
            (mm[0], mm[1]) = (0.1 * i, 0.01 * i);
            sampler.At(0, mm);
        }

        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void An_infinite_layer_is_the_limit_of_thick_ones(int layer)
    {
        LayerStack stack = Stack(0.3, 4, 0.5, 1, CouplingMedium.Air);
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            TransportSampler sampler = new(stack, geometry, new TransportModel(12, 0.5));
            double[] mm = [0.2, 0.3];
            double infinite = sampler.InfiniteAt(0, layer, mm);
            mm[layer] = 100;
            Assert.Equal(sampler.At(0, mm).Own, infinite, 1e-9);
            Assert.Equal(sampler.At(0, mm).Over(1), infinite, 1e-9);
        }
    }

    /// <summary>What neither absorbs nor lets through returns all light.</summary>
    [Fact]
    public void An_infinite_layer_without_absorption_is_white()
    {
        TransportSampler sampler = new(
            Stack(0, 4, 0.5, 1, null), MeasurementGeometry.DiffuseSpecularIncluded, new TransportModel());
        Assert.Equal(1, sampler.InfiniteAt(0, 0, [1, 1]), 1e-6);
    }

    [Fact]
    public void A_clear_layer_has_no_infinite_limit()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(
            () => new TransportSampler(Stack(0, 0, 0.5, 1, null), MeasurementGeometry.DiffuseDiffuse,
            new TransportModel()).InfiniteAt(1, 0, [1, 1]));
        Assert.Contains("'upper' neither absorbs nor scatters at 600 nm", error.Message, StringComparison.Ordinal);
    }

    private static LayerStack Stack(double k, double s, double lowerK, double lowerS, CouplingMedium? film) => new(
        [new Layer(Uniform("upper", k, s, 2.15), 1), new Layer(Uniform("lower", lowerK, lowerS, 1.52), 1)],
        Substrate.FromInternalReflectance("body", ReflectanceSpectrum.Uniform(Grid, 0.5), 1.54), film);

    private static Material Uniform(string name, double k, double s, double index) =>
        new(name, TransportModel.Default, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s),
            index);

    private static void AssertWithin(double counted, double exact, int photons) =>
        Assert.Equal(exact, counted, (4 * Math.Sqrt(Math.Max(0, exact * (1 - exact)) / photons)) + 1e-9);

    private static double Doubled(TransportLayer[] layers, double body)
    {
        const int Streams = 32;
        GaussLegendreRule rule = new(0, 1, Streams);
        double[] mu = [.. Enumerable.Range(0, Streams).Select(rule.GetAbscissa)],
            w = [.. Enumerable.Range(0, Streams).Select(rule.GetWeight)];
        Matrix<double> identity = Matrix<double>.Build.DenseIdentity(Streams);
        Matrix<double> backing = Matrix<double>.Build.Dense(Streams, Streams, (a, _) => body * 2 * mu[a] * w[a]);
        foreach (TransportLayer layer in layers.Reverse())
        {
            double extinction = layer.AbsorptionPerMm + layer.ScatteringPerMm,
                albedo = layer.ScatteringPerMm / extinction;
            int doublings = (int)Math.Ceiling(Math.Log2(extinction * layer.ThicknessMm / 1e-7));
            double start = extinction * layer.ThicknessMm / Math.Pow(2, doublings);
            Matrix<double> r = Matrix<double>.Build.Dense(
                Streams, Streams, (i, j) => albedo / 2 * w[i] * (1 - Math.Exp(-start / mu[j])));
            Matrix<double> t = r + Matrix<double>.Build.Dense(
                Streams, Streams, (i, j) => i == j ? Math.Exp(-start / mu[j]) : 0);
            for (int i = 0; i < doublings; i++)
            {
                Matrix<double> between = (identity - (r * r)).Inverse() * t;
                (r, t) = (r + (t * r * between), t * between);
            }

            backing = r + (t * backing * (identity - (r * backing)).Inverse() * t);
        }

        return Enumerable.Range(0, Streams).Sum(j => 2 * mu[j] * w[j] * backing.Column(j).Sum());
    }
}
