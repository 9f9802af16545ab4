using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Errors of compiled walls over several lights, and walls with one quantity moved.</summary>
public class ComparisonErrorTests
{
    private static readonly WallData Data = Coarse("two-flux");

    public static TheoryData<string> References => ["target", "good stump", "self-backed"];

    /// <summary>The error over both lights is the larger of the errors under one, whichever comes first.</summary>
    [Theory]
    [MemberData(nameof(References))]
    public void The_error_is_that_of_the_light_under_which_it_is_largest(string name)
    {
        ColorReference reference = name switch
        {
            "target" => Wish(new LayerStack([new Layer(Data.Dense, 1)], Data.Good).Reflectance()),
            "good stump" => MaskingReference.Over(Data.Good),
            _ => MaskingReference.SelfBacked,
        };
        ZoneComparison Under(params Colorimeter[] lights) => Comparison(reference, lights);
        ZoneComparison first = Under(Lights[0]), second = Under(Lights[1]), both = Under(Lights),
            turned = Under(Lights[1], Lights[0]);
        foreach (double mm in (double[])[0.3, 0.7, 1.4])
        {
            double expected = Math.Max(first.ErrorAt(mm), second.ErrorAt(mm));
            Assert.True(expected > 0);
            Assert.NotEqual(first.ErrorAt(mm), second.ErrorAt(mm), 1e-12);
            Assert.Equal(expected, both.ErrorAt(mm), 1e-12);
            Assert.Equal(expected, turned.ErrorAt(mm), 1e-12);

            // And it holds: the stack itself has the difference within it.
            LayerStack stack = new([new Layer(Data.Body, mm), new Layer(Data.Film, 0.05)], Data.Dark);
            Assert.Equal(
                Worst(stack, reference, 0, ColorCriterion.AcceptabilityThreshold), both.Difference(mm), expected);
        }
    }

    /// <summary>
    /// CIELAB by an error e of every reflectance, first order: X moves by at most e times the sum of its weights, so
    /// that L* moves by 116 f'(Y/Yn), a* by 500 and b* by 200 times what both of their parts move, f' = t^(-2/3)/3
    /// above (6/29)³ and (29/6)²/3 below (CIE 15:2018, 8.2.1).
    /// </summary>
    [Theory]
    [InlineData(40, 50, 30)]
    [InlineData(0.5, 0.3, 0.2)]
    public void An_error_of_reflectances_moves_colours_by_their_slopes(double x, double y, double z)
    {
        const double Error = 1e-4;
        WeightingTable table = Colorimeter.D65TwoDegree.Weighting(Data.Grid);
        double Moved(double value, ReadOnlySpan<double> weights, double white)
        {
            double t = value / white, sum = weights.ToArray().Sum(Math.Abs);
            return (t > Math.Pow(6.0 / 29, 3) ? Math.Pow(t, -2.0 / 3) / 3 : 29.0 * 29 / (36 * 3)) * Error * sum / white;
        }

        double fx = Moved(x, table.X, table.White.X), fy = Moved(y, table.Y, table.White.Y),
            fz = Moved(z, table.Z, table.White.Z);
        double expected = Math.Sqrt(
            Math.Pow(116 * fy, 2) + Math.Pow(500 * (fx + fy), 2) + Math.Pow(200 * (fy + fz), 2));
        Assert.Equal(1, ColorError.Of(Error, [x, y, z], table) / expected, 1e-9);
    }

    /// <summary>
    /// The errors of a colour and of the reference that moves with it add, each of its own stack; a target has none.
    /// </summary>
    [Fact]
    public void A_moving_reference_adds_its_own_error()
    {
        Substrate good = Substrate.FromInternalReflectance("good", ReflectanceSpectrum.Uniform(Data.Grid, 0.6), 1.7);
        foreach (double mm in (double[])[0.4, 1])
        {
            LayerStack stack = new([new Layer(Data.Body, mm), new Layer(Data.Film, 0.05)], Data.Dark);
            ZoneComparison moving = Comparison(MaskingReference.Over(good), Lights), still = Comparison(
                Wish(stack.WithSubstrate(good).Reflectance()), Lights);
            Assert.Equal(still.Difference(mm), moving.Difference(mm), 0.01);
            Span<Lab> colors = new Lab[2], references = new Lab[2];
            moving.Evaluate(mm, colors, references);
            double own = 0;
            for (int c = 0; c < 2; c++)
            {
                WeightingTable table = Lights[c].Weighting(Data.Grid);
                double Of(StackResponse response, Lab color)
                {
                    Xyz xyz = color.ToXyz(table.White);
                    return ColorError.Of(response.ErrorBound, [xyz.X, xyz.Y, xyz.Z], table);
                }

                own = Math.Max(own, ColorMove.Bound(
                    ColorCriterion.AcceptabilityThreshold, colors[c], references[c],
                    Of(moving.Response, colors[c]) + Of(moving.ReferenceResponse!, references[c])));
            }

            Assert.Equal(1, moving.ErrorAt(mm) / own, 1e-6);
            Assert.True(moving.ErrorAt(mm) > still.ErrorAt(mm));
        }
    }

    /// <summary>
    /// K or S of a film that alone is uncertain asks for slopes by both; they are those of stacks evaluated directly,
    /// within the few per cent that such slopes claim.
    /// </summary>
    [Theory]
    [InlineData(0.004, 0)]
    [InlineData(0, 0.05)]
    public void One_uncertain_coefficient_is_enough_for_slopes(double uK, double uS)
    {
        double[] Each(double value) => [.. Enumerable.Repeat(value, Data.Grid.Count)];
        Material film = new(
            "film", Data.Film.Model, Data.Film.Absorption, Data.Film.Scattering, 1.5,
            new CoefficientUncertainty(Each(uK), Each(uS), Each(0), 0));
        const double FilmMm = 0.2;
        Restoration crown = new(
            [Zone(Data.Dark, MaskingReference.SelfBacked)], new Ceramic("made up", 1, Data.Plain),
            new Layer(film, FilmMm), ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.3, 1.5), Uncertainty = Sure,
        };
        CompiledWall wall = new(crown, default);
        IReadOnlyList<WallNeighbour> neighbours = wall.NeighboursOver(Data.Dark);
        Assert.Equal(
            [MovedQuantity.Absorption, MovedQuantity.Scattering], neighbours.Select(item => item.Quantity));
        foreach (WallNeighbour neighbour in neighbours)
        {
            Assert.Equal(LayerRole.Cement, neighbour.Role);
            bool byK = neighbour.Quantity == MovedQuantity.Absorption;
            double[] slopes = neighbour.SlopesOver(Data.Dark);
            int n = Data.Grid.Count;
            for (int node = 0; node < slopes.Length / n; node++)
            {
                double mm = neighbour.Axis.NodeMm(node);
                for (int i = 0; i < n; i++)
                {
                    double step = 1e-3 * (byK ? Data.Film.Absorption[i] : Data.Film.Scattering[i]);
                    double Of(double by) => new LayerStack(
                        [
                            new Layer(Data.Plain, mm),
                            new Layer(Moved(Data.Film, i, byK ? by : 0, byK ? 0 : by), FilmMm),
                        ], Data.Dark).Reflectance()[i];
                    double expected = (Of(step) - Of(-step)) / (2 * step);
                    Assert.Equal(expected, slopes[(node * n) + i], 0.03 * Math.Abs(expected) + 1e-6);
                }
            }
        }
    }

    private static ZoneComparison Comparison(ColorReference reference, IReadOnlyList<Colorimeter> lights)
    {
        Restoration crown = Data.Crown(Zone(Data.Dark, reference)) with
        {
            Viewing = new ViewingConditions { Colorimeters = [.. lights] },
            WallRange = new ThicknessRange(0.2, 2),
            Uncertainty = Sure,
        };
        return new ZoneComparison(new CompiledWall(crown, default), crown.Zones[0]);
    }
}
