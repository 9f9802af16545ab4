using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Against scipy's integration of Kubelka's differential equation, 12 decimals.</summary>
public class GradedReferenceTests
{
    [Fact]
    public void Slices_agree_with_the_differential_equation_within_their_bound()
    {
        WavelengthGrid grid = new(400, 100, 2);
        Material Uniform(string k, string s) =>
            new("m", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(grid, Number(k)), ScatteringSpectrum.Uniform(
                grid, Number(s)), 1.53);
        foreach (string[] row in ReferenceRows("graded.csv"))
        {
            foreach (double tolerance in (double[])[1e-3, 1e-5, 1e-7])
            {
                GradedSlices slices = GradedSlices.Cut(
                    Uniform(row[0], row[1]), Uniform(row[2], row[3]), Number(row[4]),
                    depth => Math.Pow(depth, Number(row[5])), tolerance);
                Assert.InRange(slices.ErrorBound, 0, tolerance);
                Substrate backing = Substrate.FromInternalReflectance(
                    "backing", ReflectanceSpectrum.Uniform(grid, Number(row[6])), 1.53);
                double actual = new LayerStack(slices.Layers, backing).Reflectance(MeasurementGeometry.Internal)[0];
                Assert.Equal(Number(row[7]), actual, slices.ErrorBound + 1e-11);
            }
        }
    }
}
