using System.Globalization;
using CeramicOptics.Decisions.Delivered;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Tests.Reference;

/// <summary>Statistics of delivered work against published and independently computed values.</summary>
public class DeliveredStatisticsTests
{
    // Bland and Altman 1986, Lancet 327:307-310, table of peak expiratory flow (l/min): first reading by each meter.
    private static readonly double[] Wright =
        [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];

    private static readonly double[] Mini =
        [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

    /// <summary>
    /// The paper prints mean -2.1, standard deviation 38.8, limits by two deviations -79.7 and 75.5, and intervals
    /// -22.1 to 17.8 (mean), -114.3 to -45.1 (lower), 40.9 to 110.1 (upper); it rounds t to 2.12 and works on with
    /// rounded numbers.
    /// </summary>
    [Fact]
    public void Limits_of_agreement_are_those_of_the_paper()
    {
        double[] differences = [.. Wright.Zip(Mini, (one, other) => one - other)];
        LimitsOfAgreement agreement = new(differences, factor: 2);
        Assert.Equal(17, agreement.Count);
        Assert.Equal(-2.1, agreement.Bias, 0.05);
        Assert.Equal(38.8, agreement.StandardDeviation, 0.05);
        Assert.Equal(-79.7, agreement.Lower, 0.1);
        Assert.Equal(75.5, agreement.Upper, 0.1);
        Assert.Equal(-22.1, agreement.BiasInterval95.Low, 0.1);
        Assert.Equal(17.8, agreement.BiasInterval95.High, 0.1);
        Assert.Equal(-114.3, agreement.LowerInterval95.Low, 0.5);
        Assert.Equal(-45.1, agreement.LowerInterval95.High, 0.5);
        Assert.Equal(40.9, agreement.UpperInterval95.Low, 0.5);
        Assert.Equal(110.1, agreement.UpperInterval95.High, 0.5);
    }

    /// <summary>
    /// ewma_run_length.csv is by an independent program that solves the integral equation; for four coordinates it
    /// gives 200.5 and 499.5 where the published limits 12.73 and 16.38 are meant for 200 and 500 (Rigdon 1995, as
    /// quoted in the man pages of the R package spc). Shells of the Markov chain are worth 0.1 %.
    /// </summary>
    [Fact]
    public void Average_run_length_is_that_of_an_independent_program() => Assert.All(
        RunLengths(), row => Assert.Equal(row[2], EwmaRunLength.Average(row[0], row[1]), 0.0015 * row[2]));

    /// <summary>The limit is found as the length is; a row of each weight is enough.</summary>
    [Fact]
    public void Limit_for_a_run_length_is_that_of_an_independent_program() => Assert.All(
        RunLengths().Where(row => row[1] == 10.79),
        row => Assert.Equal(row[1], EwmaRunLength.LimitFor(row[0], row[2]), 0.005));

    /// <summary>
    /// With all the weight on the newest piece it is the T² chart: one over the tail of chi-square of three degrees of
    /// freedom, 0.005 above 12.838 (common tables, three decimals).
    /// </summary>
    [Fact]
    public void Average_run_length_without_memory_is_that_of_chi_square() =>
        Assert.Equal(200, EwmaRunLength.Average(1, 12.838), 0.1);

    /// <summary>Brute force: 4,000 runs of random numbers; standard error of the mean 1.6 %.</summary>
    [Fact]
    public void Average_run_length_is_that_of_random_numbers()
    {
        const double Weight = 0.2, Limit = 10;
        const int Runs = 4000;
        Random random = new(7);
        double sum = 0;
        for (int run = 0; run < Runs; run++)
        {
            double x = 0, y = 0, z = 0;
            do
            {
                (x, y, z) = (Next(x), Next(y), Next(z));
                sum++;
            }
            while (((x * x) + (y * y) + (z * z)) * (2 - Weight) / Weight <= Limit);
        }

        double expected = EwmaRunLength.Average(Weight, Limit);
        Assert.Equal(expected, sum / Runs, 0.05 * expected);

        double Next(double before) => ((1 - Weight) * before) + (Weight
            * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
    }

    /// <summary>
    /// bayes.csv has mean and covariance by mpmath with 50 digits, from all pieces at once in information form; here
    /// one piece comes after another.
    /// </summary>
    [Fact]
    public void Update_is_that_of_an_independent_program()
    {
        string[] lines = File.ReadAllLines(Repository.PathOf("tests", "reference", "bayes.csv"));
        double[][] Rows(string name) => [.. lines.Where(line => line.StartsWith(name + ",", StringComparison.Ordinal))
            .Select(line => line.Split(',').Skip(1)
                .Select(text => double.Parse(text, CultureInfo.InvariantCulture)).ToArray())];
        Matrix<double> Of(IEnumerable<double[]> rows) => Matrix<double>.Build.DenseOfRowArrays(rows);
        Matrix<double> prior = Of(Rows("prior")), slopes = Of(Rows("slopes")), scatter = Of(Rows("scatter"));
        double[] read = Rows("read")[0];
        GaussianState state = new(Vector<double>.Build.Dense(prior.RowCount), prior);
        for (int i = 0; i < read.Length / 3; i++)
        {
            state.Update(
                slopes.SubMatrix(3 * i, 3, 0, slopes.ColumnCount),
                Vector<double>.Build.DenseOfArray(read[(3 * i)..((3 * i) + 3)]), scatter, out _);
        }

        double[] mean = Rows("mean")[0];
        Matrix<double> covariance = Of(Rows("covariance"));
        for (int q = 0; q < mean.Length; q++)
        {
            Assert.Equal(mean[q], state.Mean[q], 1e-12);
            for (int other = 0; other < mean.Length; other++)
            {
                Assert.Equal(covariance[q, other], state.Covariance[q, other], 1e-12);
            }
        }
    }

    // Weight, limit, average run length.
    private static IEnumerable<double[]> RunLengths() =>
        File.ReadLines(Repository.PathOf("tests", "reference", "ewma_run_length.csv")).Skip(1).Select(line =>
            (double[])[.. line.Split(',').Select(text => double.Parse(text, CultureInfo.InvariantCulture))]);
}
