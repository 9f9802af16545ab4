using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Spectra;

namespace CeramicOptics.Layers.Transport;

/// <summary>How far two-flux theory departs from exact radiative transfer for one stack.</summary>
/// <param name="LargestReflectanceDifference">Two-flux less exact reflectance where they differ most.</param>
/// <param name="WavelengthNm">Where that is, nm.</param>
/// <param name="ColorDifference">CIEDE2000 between the two predictions, D65 and 2 degrees.</param>
/// <remarks>
/// Both models get the same K and S. Where these were themselves found with two-flux theory on discs much like the layer, errors cancel
/// in part, so the departure is an upper estimate of what a prediction may be off.
/// </remarks>
public sealed record TwoFluxValidity(double LargestReflectanceDifference, double WavelengthNm, double ColorDifference)
{
    /// <summary>True when the departure is within the perceptibility threshold, CIEDE2000 0.8.</summary>
    public bool IsWithinPerceptibility => ColorDifference <= ColorCriterion.ImperceptibleMatch.Limit;

    /// <summary>Compares the two models.</summary>
    /// <param name="stack">The stack.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="exact">The exact model; with 12 streams when null, which is enough to judge by.</param>
    public static TwoFluxValidity Assess(
        LayerStack stack, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded, TransportModel? exact = null)
    {
        ReflectanceSpectrum fast = Guard.NotNull(stack).Reflectance(geometry), judge = (exact ?? new TransportModel(12)).Reflectance(stack, geometry);
        int largest = 0;
        for (int i = 1; i < fast.Grid.Count; i++)
        {
            largest = Math.Abs(fast[i] - judge[i]) > Math.Abs(fast[largest] - judge[largest]) ? i : largest;
        }

        return new TwoFluxValidity(
            fast[largest] - judge[largest],
            fast.Grid[largest],
            Colorimetry.Differences.ColorDifference.Ciede2000(Colorimeter.D65TwoDegree.ToLab(judge), Colorimeter.D65TwoDegree.ToLab(fast)));
    }
}
