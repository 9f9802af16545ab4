using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>Batch forms against the scalar definitions, every length from 0 on.</summary>
[Properties(MaxTest = Cases.OfKernels, Arbitrary = [typeof(Generators)])]
public class BatchProperties
{
    [Property]
    public void Ciede2000_of_many_is_that_of_each(ColorInput[] one, ColorInput[] other)
    {
        int count = Math.Min(one.Length, other.Length);
        Lab[] references = [.. one.Take(count).Select(color => color.Lab)], samples = [.. other.Take(count).Select(
            color => color.Lab)];
        AssertEqualsScalar(references, samples);
    }

    [Property]
    public void Small_differences_and_awkward_hues_agree_too(ColorInput color, ColorInput offset, Fraction scale)
    {
        Lab near = new(
            color.L + (scale.Value * 1e-3 * offset.A), color.A + (scale.Value * 1e-3 * offset.B),
            color.B + (1e-6 * offset.L));
        Lab opposite = new(color.L, -color.A, -color.B), neutral = new(color.L, 0, 0), axis = new(
            color.L, 0, -color.B), blue = new(color.L, 0.1 * color.A, -60);
        AssertEqualsScalar(
            [color.Lab, color.Lab, color.Lab, neutral, neutral, color.Lab, blue, blue],
            [near, opposite, neutral, color.Lab, neutral, axis, near, new Lab(color.L + 1, blue.A + 2, blue.B + 1)]);

        // From 0.0001 to 1 radian off opposition, to either side and at other chromas.
        double turn = Math.Pow(10, -4 * scale.Value);
        Lab Off(double by, double longer) =>
            new(offset.L, -longer * ((color.A * Math.Cos(by)) - (color.B * Math.Sin(by))), -longer * (
                (color.A * Math.Sin(by)) + (color.B * Math.Cos(by))));
        AssertEqualsScalar(
            Enumerable.Repeat(color.Lab, 8).ToArray(),
            [Off(turn, 1), Off(-turn, 1), Off(turn, 2), Off(-turn, 0.5), Off(2 * turn, 1), Off(-2 * turn, 0.1),
            Off(turn / 2, 1.5), Off(-turn / 2, 3)]);
    }

    [Fact]
    public void Published_pairs_hold_in_batch_and_every_length_works()
    {
        string[][] rows = [.. Repository.ReferenceRows("ciede2000_pairs.csv")];
        Lab At(string[] row, int from) =>
            new(Repository.Number(row[from]), Repository.Number(row[from + 1]), Repository.Number(row[from + 2]));
        Lab[] references = [.. rows.Select(row => At(row, 1))], samples = [.. rows.Select(row => At(row, 4))];
        for (int length = 0; length <= rows.Length; length++)
        {
            double[] result = new double[length];
            ColorDifference.Ciede2000(references.AsSpan(0, length), samples.AsSpan(0, length), result);
            for (int i = 0; i < length; i++)
            {
                Assert.Equal(Repository.Number(rows[i][7]), result[i], 0.00005);
            }
        }

        Assert.Throws<ArgumentException>(() => ColorDifference.Ciede2000(references, samples, new double[3]));
        Assert.Throws<ArgumentOutOfRangeException>(
            () => ColorDifference.Ciede2000(new Lab[4], [default, default, new Lab(1, double.NaN, 0), default],
            new double[4]));
    }

    /// <summary>What the scalar form refuses is refused in every place of a batch, which is named.</summary>
    [Fact]
    public void Colours_far_beyond_real_ones_are_left_to_the_definition()
    {
        foreach (double value in (double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity, 1e200, 2e9])
        {
            for (int at = 0; at < 11 * 3; at++)
            {
                Lab[] one = [.. Enumerable.Repeat(new Lab(50, 10, 20), 11)], other = [.. one];
                other[at / 3] = at % 3 == 0 ? other[0] with { L = value }
                    : at % 3 == 1 ? other[0] with { A = value } : other[0] with { B = value };
                string place = $"[{at / 3}].{"LAB"[at % 3]}";
                Assert.Equal("samples" + place, Assert.Throws<ArgumentOutOfRangeException>(
                    () => ColorDifference.Ciede2000(one, other, new double[11])).ParamName);
                Assert.Equal("references" + place, Assert.Throws<ArgumentOutOfRangeException>(
                    () => ColorDifference.Ciede2000(other, one, new double[11])).ParamName);
            }
        }

        Lab[] large = [.. Enumerable.Range(0, 16).Select(
            i => new Lab(Math.Pow(10, i / 2.0), -Math.Pow(9, i / 2.0), Math.Pow(11, i / 2.0)))];
        AssertEqualsScalar(large, [.. large.Reverse()]);
        AssertEqualsScalar(large, [.. large.Select(color => color with { A = color.A + 1 })]);
    }

    /// <summary>Mean hues all around, where the bell around 275 degrees is wide, narrow and cut off at 0.</summary>
    [Fact]
    public void Every_mean_hue_agrees()
    {
        Lab At(double degrees, double chroma) => new(
            40, chroma * Math.Cos(degrees * Math.PI / 180), chroma * Math.Sin(degrees * Math.PI / 180));
        foreach (double chroma in (double[])[1e-9, 0.3, 30, 120])
        {
            double[] hues = [.. Enumerable.Range(0, 720).Select(i => 0.31 + (0.5 * i))];
            AssertEqualsScalar(
                [.. hues.Select(hue => At(hue - 7, chroma))], [.. hues.Select(hue => At(hue + 7, 1.2 * chroma))]);
        }
    }

    [Property]
    public void Colours_of_many_spectra_are_those_of_each(StumpInput[] stumps)
    {
        foreach (double step in (double[])[5, 10])
        {
            WavelengthGrid grid = WavelengthGrid.Range(380, 780, step);
            WeightingTable table = Colorimeter.D65TenDegree.Weighting(grid);
            double[] values = [.. stumps.SelectMany(
                stump => Enumerable.Range(0,
                grid.Count).Select(i =>
                    stump.Blue + ((stump.Red - stump.Blue) * Math.Sin(i * stump.Red) * Math.Sin(i * stump.Red))))];
            Lab[] colors = new Lab[stumps.Length];
            table.ToLab(values, colors);
            Xyz[] sums = new Xyz[stumps.Length];
            table.ToXyz(values, sums);
            for (int i = 0; i < colors.Length; i++)
            {
                Assert.Equal(
                    0, ColorDifference.Cie76(table.ToLab(values.AsSpan(i * grid.Count, grid.Count)), colors[i]), 1e-10);
                Xyz one = table.ToXyz(values.AsSpan(i * grid.Count, grid.Count));
                Assert.InRange(Math.Abs(one.Y - sums[i].Y), 0, 1e-13 * one.Y);
            }
        }
    }

    private static void AssertEqualsScalar(Lab[] references, Lab[] samples)
    {
        double[] result = new double[references.Length];
        ColorDifference.Ciede2000(references, samples, result);
        AssertEqualsScalar(references, samples, result);
#if !SECOND_BUILD
        // The vectors of other processors than this one.
        int whole = ColorDifference.ByLanes<NarrowLanes>(references, samples, result);
        AssertEqualsScalar(references, samples, result.AsSpan(0, whole));
#endif
    }

    private static void AssertEqualsScalar(Lab[] references, Lab[] samples, ReadOnlySpan<double> result)
    {
        for (int i = 0; i < result.Length; i++)
        {
            double expected = ColorDifference.Ciede2000(references[i], samples[i]);
            Assert.True(
                Math.Abs(expected - result[i]) <= 1e-10 * Math.Max(1, expected),
                $"{references[i]} {samples[i]}: {result[i]:R} against {expected:R}");
        }
    }
}
