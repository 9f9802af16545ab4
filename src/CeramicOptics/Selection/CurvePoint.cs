using CeramicOptics.Colorimetry;

namespace CeramicOptics.Selection;

/// <summary>Everything a <see cref="DifferenceCurve"/> knows at one thickness.</summary>
/// <param name="ThicknessMm">Thickness, mm.</param>
/// <param name="Spectra">Reflectances over each stump.</param>
/// <param name="Reference">Reflectances of a reference that varies with thickness; null for a fixed one.</param>
/// <param name="Colors">Colour by stump and colorimeter.</param>
/// <param name="References">Reference colour by colorimeter.</param>
/// <param name="Differences">Difference by stump and colorimeter.</param>
/// <param name="WorstAt">Stump and colorimeter of the largest difference.</param>
internal sealed record CurvePoint(
    double ThicknessMm, double[][] Spectra, double[]? Reference, Lab[,] Colors, Lab[] References, double[,] Differences, (int Substrate, int Colorimeter) WorstAt)
{
    public double Worst => Differences[WorstAt.Substrate, WorstAt.Colorimeter];
}
