using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>
/// Against Kubelka's hyperbolic solution (Kubelka 1948, J. Opt. Soc. Am. 38:448) evaluated by mpmath with 60 digits.
/// </summary>
public class TwoFluxReferenceTests
{
    private const double SmallestNormal = 2.2250738585072014e-308;

    [Fact]
    public void Reflectance_agrees_to_1e_12()
    {
        int checkedRows = 0;
        foreach (string[] row in ReferenceRows("two_flux.csv"))
        {
            double k = Number(row[0]), s = Number(row[1]), t = Number(row[2]), g = Number(row[3]), expected = Number(
                row[4]);
            double actual = TwoFluxLayer.Reflectance(k, s, t, g);
            bool close = expected < SmallestNormal
                ? actual >= 0 && actual <= SmallestNormal
                : Math.Abs(actual - expected) <= 1e-12 * expected;
            Assert.True(close, $"K {k}, S {s}, t {t}, Rg {g}: {actual:R} against {expected:R}");
            checkedRows++;
        }

        Assert.Equal(9 * 9 * 7 * 5, checkedRows);
    }

    [Fact]
    public void Derivatives_agree_with_high_order_differences()
    {
        // mpmath differentiates numerically with 300 digits; printed to 20. Tolerance 1e-10 of the value, or of the
        // scale that the formula's terms have where they cancel.
        int checkedRows = 0;
        foreach (string[] row in ReferenceRows("two_flux_derivatives.csv"))
        {
            double k = Number(row[0]), s = Number(row[1]), t = Number(row[2]), g = Number(row[3]);
            LayerSensitivity actual = TwoFluxLayer.Sensitivity(k, s, t, g);
            AssertClose(Number(row[4]), actual.ByThicknessPerMm, 2 * (k + s), row);
            AssertClose(Number(row[5]), actual.ByAbsorptionMm, t, row);
            AssertClose(Number(row[6]), actual.ByScatteringMm, t, row);
            AssertClose(Number(row[7]), actual.ByBacking, 1e-300, row);
            checkedRows++;
        }

        Assert.Equal(192, checkedRows);
    }

    private static void AssertClose(double expected, double actual, double scale, string[] row) =>
        Assert.True(
            Math.Abs(actual - expected) <= (1e-10 * Math.Abs(expected)) + (1e-14 * scale),
            $"{string.Join(",", row)}: {actual:R} against {expected:R}");
}
