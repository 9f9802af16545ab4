using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

/// <summary>What delivered work teaches, compared with closed forms of Bayesian statistics and with counts.</summary>
public class DeliveredByDefinitionTests
{
    private const double Furnace = 0.5, Noise = 0.3;

    private static readonly Ceramic Known = GlassCeramic(3);

    // Nothing but the colour of the furnace is uncertain.
    private static readonly CorrectionOptions OnlyFurnace = new()
    {
        CommonShare = 1, BatchScale = 0, UnstatedScale = 0, FurnaceColor = Furnace, ReadingColor = Noise,
    };

    private static readonly InputUncertainty Sure = new()
    {
        CoreMm = 0, CementMm = 0, StumpReflectance = 0, RefractiveIndex = 0, ModelColor = 0,
    };

    [Fact]
    public void Defaults_are_those_of_the_documentation()
    {
        CorrectionOptions options = new();
        Assert.Equal(
            (0.05, 0.05, 0.5, 0.3, 0.5),
            (options.BatchScale, options.UnstatedScale, options.FurnaceColor, options.ReadingColor,
                options.CommonShare));
        Assert.Equal((0.2, 500.0), (new DriftOptions().Weight, new DriftOptions().PiecesPerFalseAlarm));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DriftOptions { Weight = 1.01 });
    }

    /// <summary>
    /// Mean of normal readings with a normal prior (Gelman et al. 2013, section 2.5), and the factor of all variances
    /// with a prior worth ten pieces, by iteration of its own: the quadratic form of readings that share one error.
    /// </summary>
    [Fact]
    public void A_furnace_is_the_weighted_mean_of_prior_and_readings()
    {
        ColorDeviation[] left = [new(1.0, -0.5, 0.6), new(1.6, -0.9, 0.2), new(1.3, -0.4, 0.9)];
        ColorDeviation[] right = [new(0, 0.8, 0)];
        CorrectionResult result = Correction.Find(
            Record([.. left.Select(d => (1.0, "left", d)), .. right.Select(d => (1.0, "right", d))]),
            piece => Plan(piece.WallMm), OnlyFurnace);

        const double prior = Furnace * Furnace, noise = Noise * Noise;
        double[][] groups = [.. new[] { left, right }.SelectMany(group => (double[][])[
            [.. group.Select(d => d.L)], [.. group.Select(d => d.A)], [.. group.Select(d => d.B)]])];
        double factor = 1;
        for (int i = 0; i < 100; i++)
        {
            // Sherman-Morrison: d' (noise I + prior / factor 1 1')^-1 d.
            double own = prior / factor;
            double squares = groups.Sum(d => (d.Sum(x => x * x)
                - (own * d.Sum() * d.Sum() / (noise + (d.Length * own)))) / noise);
            factor = (30 + squares) / (3 * (10 + left.Length + right.Length));
        }

        Assert.Equal(factor, result.ScatterFactor * result.ScatterFactor, 0.02 * factor);
        CorrectedKind[] kinds = [CorrectedKind.FurnaceL, CorrectedKind.FurnaceA, CorrectedKind.FurnaceB];
        for (int g = 0; g < groups.Length; g++)
        {
            CorrectedQuantity found = result.Quantities.Single(
                q => q.Kind == kinds[g % 3] && q.Subject == (g < 3 ? "left" : "right"));
            double after = 1 / ((1 / prior) + (groups[g].Length / (factor * noise)));
            double mean = after * groups[g].Sum() / (factor * noise);
            Assert.Equal((0.0, Furnace), (found.Before, Math.Round(found.BeforeUncertainty, 12)));
            Assert.Equal(mean, found.After, 0.01);
            Assert.Equal(Math.Sqrt(after), found.AfterUncertainty, 0.01 * Furnace);
            Assert.Equal(1 - (after / prior), found.Learned, 0.01);
            ColorDeviation effect = found.MeanEffect;
            Assert.Equal(g % 3 == 0 ? found.After : 0, effect.L, 1e-12);
            Assert.Equal(g % 3 == 1 ? found.After : 0, effect.A, 1e-12);
            Assert.Equal(g % 3 == 2 ? found.After : 0, effect.B, 1e-12);
        }

        Assert.All(result.Quantities.Where(q => !kinds.Contains(q.Kind)), q => Assert.Equal(0, q.Learned));
    }

    /// <summary>Its effect is the mean change of colours of stacks with the corrected coefficient.</summary>
    [Fact]
    public void The_effect_of_a_scale_is_what_it_does_to_colours()
    {
        double[] walls = [0.6, 0.9, 1.2];
        CorrectionResult result = Correction.Find(
            Record([.. walls.Select(mm => (mm, "left", new ColorDeviation(0.4, -0.1, 0.5)))]),
            piece => Plan(piece.WallMm),
            new CorrectionOptions { CommonShare = 1, BatchScale = 0, FurnaceColor = 0, ReadingColor = 0.1 });
        foreach (CorrectedKind kind in (CorrectedKind[])[CorrectedKind.AbsorptionScale, CorrectedKind.ScatteringScale])
        {
            CorrectedQuantity found = result.Quantities.Single(q => q.Kind == kind);
            Assert.True(Math.Abs(found.After - 1) > 0.005, found.ToString());
            (double k, double s) = kind == CorrectedKind.AbsorptionScale ? (found.After, 1.0) : (1.0, found.After);
            Lab[] before = [.. walls.Select(mm => ColorOf(Plan(mm), mm))];
            Ceramic corrected = new("Meadow", 3, Scaled(k, s));
            Lab[] after = [.. walls.Select(mm => ColorOf(Plan(mm).WithCore(corrected), mm))];
            double l = after.Zip(before, (x, y) => x.L - y.L).Average(), a = after.Zip(before, (x, y) => x.A - y.A)
                .Average(), b = after.Zip(before, (x, y) => x.B - y.B).Average();
            double tolerance = 0.1 * Math.Sqrt((l * l) + (a * a) + (b * b));
            Assert.Equal(l, found.MeanEffect.L, tolerance);
            Assert.Equal(a, found.MeanEffect.A, tolerance);
            Assert.Equal(b, found.MeanEffect.B, tolerance);
        }
    }

    /// <summary>
    /// Relative moves of the sums of K and S over 31 equal wavelengths: independent noise averages out, a common cause
    /// does not, and the scale moves both alike.
    /// </summary>
    [Theory]
    [InlineData(0.1, 0.004, 0.002)]
    [InlineData(0.1, 0.0, 0.0)]
    [InlineData(0.001, 0.1, 0.01)]
    [InlineData(0.0, 0.0, 0.0)]
    public void The_prior_of_scales_follows_from_stated_uncertainties(double k, double noiseOfK, double commonOfK)
    {
        const double s = 4, noiseOfS = 0.2, commonOfS = -0.06, correlation = 0.4, scale = 0.03;
        int n = Grid.Count;
        Ceramic ceramic = new("Meadow", 3, new Material(
            "core", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s),
            1.53, new CoefficientUncertainty(
                Many(noiseOfK), Many(noiseOfS), Many(correlation), scale, Many(commonOfK), Many(commonOfS))));
        LearningModel model = new(
            [Piece("crown", 1, 1, "left", Plan(1).WithCore(ceramic), default)], _ => Plan(1).WithCore(ceramic),
            new CorrectionOptions());
        int atK = model.PositionOf(new(CorrectedKind.AbsorptionScale, "core"))!.Value,
            atS = model.PositionOf(new(CorrectedKind.ScatteringScale, "core"))!.Value;

        // Never more than all of it; where nothing absorbs, nothing but the scale can be wrong.
        double ofK = k == 0 ? scale : Math.Min(1, Math.Sqrt(
            (scale * scale) + (Squared(noiseOfK / k) / n) + Squared(commonOfK / k)));
        double ofS = Math.Sqrt((scale * scale) + (Squared(noiseOfS / s) / n) + Squared(commonOfS / s));
        double both = k == 0 ? scale * scale : (scale * scale)
            + (correlation * noiseOfK / k * noiseOfS / s / n) + (commonOfK / k * commonOfS / s);
        double largest = 0.999 * ofK * ofS;
        Assert.Equal(ofK, Math.Sqrt(model.Prior[atK, atK]), 1e-12);
        Assert.Equal(ofS, Math.Sqrt(model.Prior[atS, atS]), 1e-12);
        Assert.Equal(Math.Min(largest, Math.Max(-largest, both)), model.Prior[atK, atS], 1e-12);
        Assert.Equal(model.Prior[atK, atS], model.Prior[atS, atK]);

        double[] Many(double value) => [.. Enumerable.Repeat(value, n)];
        static double Squared(double value) => value * value;
    }

    /// <summary>A theory's own error goes along in L* and b*; readings scatter in each alone.</summary>
    [Fact]
    public void A_reading_scatters_by_the_theory_too()
    {
        Restoration plan = Plan(1) with { Uncertainty = Sure with { ModelColor = null } };
        LearningModel model = new([Piece("crown", 1, 1, "left", plan, default)], _ => plan, OnlyFurnace);
        PieceColor color = model.ColorAt(model.Cases[0], MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(
            model.Count), default);
        OwnError theory = plan.OwnErrorAt(1);
        Assert.True(theory.Correlation * theory.L * theory.B != 0);
        double[,] expected =
        {
            { (Noise * Noise) + (theory.L * theory.L), 0, theory.Correlation * theory.L * theory.B },
            { 0, (Noise * Noise) + (theory.A * theory.A), 0 },
            { theory.Correlation * theory.L * theory.B, 0, (Noise * Noise) + (theory.B * theory.B) },
        };
        for (int i = 0; i < 9; i++)
        {
            Assert.Equal(expected[i / 3, i % 3], model.Scatter(model.Cases[0], color)[i / 3, i % 3], 1e-12);
        }
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void Fewer_than_ten_pieces_are_few(int count, bool isFew) => Assert.Equal(isFew, Correction.Find(
        Record([.. Enumerable.Repeat((1.0, "left", default(ColorDeviation)), count)]), piece => Plan(piece.WallMm),
        OnlyFurnace).Findings.Any(finding => finding.Kind == CorrectionFindingKind.FewPieces));

    /// <summary>Walls within 0.05 mm over one stump are equal pieces.</summary>
    [Theory]
    [InlineData(1.0, true)]
    [InlineData(1.04, true)]
    [InlineData(1.2, false)]
    public void Pieces_of_other_walls_are_not_equal(double otherMm, bool areEqual) => Assert.Equal(
        areEqual, Correction.Find(
            Record([(1.0, "left", default), (otherMm, "left", default)]), piece => Plan(piece.WallMm), OnlyFurnace)
            .Findings.Any(finding => finding.Kind == CorrectionFindingKind.EqualPieces));

    /// <summary>One reading that is far off is left out only where five others speak against it.</summary>
    [Theory]
    [InlineData(4, false)]
    [InlineData(5, true)]
    public void A_piece_is_left_out_where_at_least_five_others_agree(int others, bool isLeftOut)
    {
        CorrectionResult result = Correction.Find(
            Record([
                .. Enumerable.Repeat((1.0, "left", default(ColorDeviation)), others),
                (1.0, "right", new ColorDeviation(12, 0, 0))]),
            piece => Plan(piece.WallMm), OnlyFurnace);
        Assert.Equal(
            [.. Enumerable.Repeat(true, others), !isLeftOut], result.Pieces.Select(piece => piece.IsUsed));
    }

    /// <summary>A piece that is far off is left out too where nothing can be learned that would move.</summary>
    [Fact]
    public void A_piece_is_left_out_where_nothing_is_uncertain()
    {
        CorrectionResult result = Correction.Find(
            Record([.. Enumerable.Range(0, 10).Select(i => (1.0, "left", new ColorDeviation(i < 9 ? 0 : 12, 0, 0)))]),
            piece => Plan(piece.WallMm), OnlyFurnace with { FurnaceColor = 0 });
        Assert.Equal([.. Enumerable.Repeat(true, 9), false], result.Pieces.Select(piece => piece.IsUsed));
        CorrectionFindingKind[] kinds = [CorrectionFindingKind.EqualPieces, CorrectionFindingKind.OutlyingPiece];
        Assert.Equal(kinds, result.Findings.Select(finding => finding.Kind));
    }

    /// <summary>What pieces have in common is a share of the variance: a quarter of it is half the deviation.</summary>
    [Fact]
    public void The_common_share_is_one_of_variances()
    {
        Restoration unsure = Plan(1) with { Uncertainty = Sure with { CoreMm = 0.04 } };
        LearningModel model = new(
            [Piece("crown", 1, 1, "left", unsure, default)], _ => unsure, OnlyFurnace with { CommonShare = 0.25 });
        int wall = model.Keys.ToList().FindIndex(key => key.Kind == CorrectedKind.WallThickness);
        Assert.Equal(0.02, Math.Sqrt(model.Prior[wall, wall]), 1e-12);
    }

    /// <summary>
    /// Ten pieces, half 3 too light and half 3 too dark: ten times what a reading is uncertain by, but none is worse
    /// than the others.
    /// </summary>
    [Fact]
    public void Pieces_that_all_scatter_are_all_kept_and_the_scatter_is_said()
    {
        CorrectionResult result = Correction.Find(
            Record([.. Enumerable.Range(0, 10).Select(i => (
                1.0, "left", new ColorDeviation(i % 2 == 0 ? 3 : -3, 0, 0)))]),
            piece => Plan(piece.WallMm), OnlyFurnace);
        Assert.All(result.Pieces, piece => Assert.True(piece.IsUsed));
        CorrectionFinding scatter = Assert.Single(
            result.Findings, finding => finding.Kind == CorrectionFindingKind.LargeScatter);
        Assert.Equal(result.ScatterFactor, scatter.Value!.Value, 1e-12);

        // Squares of 100 each, by thirty coordinates and a prior of as many: (30 + 1000) / 60.
        Assert.Equal(Math.Sqrt(1030 / 60.0), result.ScatterFactor, 0.1);
    }

    [Fact]
    public void A_large_correction_is_said_of_the_first_quantity_and_of_the_last()
    {
        Restoration Unsure(double mm) => Plan(mm) with { Uncertainty = Sure with { CoreMm = 0.05 } };
        double[] walls = [0.8, 1.0, 1.2, 1.4];
        DeliveredRecord thinner = DeliveredRecord.Start("laboratory").Append(walls.Select((mm, i) => Piece(
            $"crown {i}", i, mm, "left", Plan(mm), LearningModel.Shift(
                ColorOf(Plan(mm), mm), ColorOf(Plan(mm), mm - 0.2)))));
        CorrectionResult result = Correction.Find(
            thinner, piece => Unsure(piece.WallMm), OnlyFurnace with { FurnaceColor = 0, ReadingColor = 0.05 });
        CorrectionFinding wall = Assert.Single(
            result.Findings, finding => finding.Kind == CorrectionFindingKind.LargeCorrection);
        Assert.Equal("walls", wall.Subject);
        Assert.Equal(Math.Abs(result.Quantities[0].After) / 0.05, wall.Value!.Value, 0.05);
        Assert.InRange(wall.Value!.Value, 2.5, 4.1);

        CorrectionResult yellower = Correction.Find(
            Record([.. Enumerable.Repeat((1.0, "left", new ColorDeviation(0, 0, 2.5)), 6)]),
            piece => Plan(piece.WallMm), OnlyFurnace);
        CorrectionFinding furnace = Assert.Single(
            yellower.Findings, finding => finding.Kind == CorrectionFindingKind.LargeCorrection);
        Assert.Equal("left", furnace.Subject);
        Assert.Contains("left: moved by", furnace.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_alarm_is_written_as_one()
    {
        DriftResult result = Drift.Find(
            Record([.. Enumerable.Range(0, 20).Select(
                i => (1.0, "left", new ColorDeviation(i < 12 ? 0.1 : -3, 0, 0)))]),
            piece => Plan(piece.WallMm), new DriftOptions { Expected = OnlyFurnace });
        Assert.Equal(0.2 * 0.1, result.Points[0].Shift.L, 1e-3);
        Assert.NotEmpty(result.Alarms);
        Assert.All(result.Points, point => Assert.Equal(
            point.IsAlarm, point.ToString().Contains("alarm", StringComparison.Ordinal)));
    }

    private static DeliveredRecord Record((double WallMm, string Furnace, ColorDeviation Off)[] pieces) =>
        DeliveredRecord.Start("laboratory").Append(pieces.Select((piece, i) => Piece(
            $"crown {i}", i, piece.WallMm, piece.Furnace, Plan(piece.WallMm), piece.Off)));

    private static DeliveredPiece Piece(
        string name, int day, double wallMm, string furnace, Restoration plan, ColorDeviation off)
    {
        Lab planned = ColorOf(plan, wallMm);
        return new DeliveredPiece(
            name, new DateTime(2026, 1, 1).AddDays(day), plan.Core.Material.Name, "A", wallMm, BrownTooth.Name,
            Reading(planned), Reading(new Lab(planned.L + off.L, planned.A + off.A, planned.B + off.B)))
        {
            Cement = Cement.Material.Name, Furnace = furnace,
        };
    }

    private static Restoration Plan(double mm) => new(
        [new Zone("body", BrownTooth, mm, MaskingReference.SelfBacked)], Known, Cement,
        ColorCriterion.AcceptabilityThreshold)
    {
        Uncertainty = Sure,
    };

    private static Lab ColorOf(Restoration plan, double mm) =>
        Colorimeter.D65TwoDegree.ToLab(plan.StackOver(BrownTooth, mm).Reflectance());

    private static ColorReading Reading(Lab color) =>
        ColorReading.FromColor(color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);

    private static Material Scaled(double k, double s) => new(
        Known.Material.Name, Known.Material.Model,
        new AbsorptionSpectrum(Grid, [.. Known.Material.Absorption.Values.ToArray().Select(value => k * value)]),
        new ScatteringSpectrum(Grid, [.. Known.Material.Scattering.Values.ToArray().Select(value => s * value)]),
        Known.Material.RefractiveIndex);
}
