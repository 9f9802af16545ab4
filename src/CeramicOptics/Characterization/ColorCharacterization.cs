using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Characterization;

/// <summary>K and S estimated from colours alone: a disc's L*a*b* over black and over white.</summary>
/// <remarks>
/// Six numbers cannot determine two spectra. Two estimates are made that both have the colours read: one from the
/// smoothest reflectances over each backing, one from a plain material (S a power of wavelength, K a power and an
/// exponential rise into the blue, which is how scattering ceramics with an absorption edge in the violet behave). The
/// geometric mean of the two is given, and their distance, the uncertainty of the readings and a tenth of the value
/// make up the standard uncertainty.
/// </remarks>
public static class ColorCharacterization
{
    private const double FloorRelative = 0.1;

    /// <summary>Estimates K and S.</summary>
    /// <param name="colors">Colours of the disc.</param>
    /// <param name="grid">Wavelengths wanted; data of the backings must be on it.</param>
    /// <param name="model">The theory for which K and S are wanted; radiative transfer when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// No plain material has these colours within 4 units or ten times the uncertainty, or data of a backing is on
    /// another grid.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">No reflectance has a colour.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CharacterizationResult Find(
        DiscColors colors, WavelengthGrid grid, IOpticalModel? model = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        CharacterizationOptions options = new() { Model = model ?? TransportModel.Default };
        DiscSet readings = Guard.NotNull(colors).SmoothestReadings(Guard.NotNull(grid));
        CharacterizationResult smoothest = DiscCharacterization.Find(readings, options, null, cancellation);
        progress?.Report(0.2);
        DiscColors large = readings.HasWindows ? LargeColors(colors, smoothest) : colors;
        PlainMaterial plain = PlainMaterial.Fit(large, readings, options.Model, cancellation);
        Material? direct = smoothest.IsComplete ? smoothest.ToMaterial() : null;
        var solutions = new CharacterizationResult.Solution?[grid.Count];
        for (int i = 0; i < grid.Count; i++)
        {
            (double plainK, double plainS) = plain.CoefficientsAt(i);
            (double uK, double uS) = plain.RelativeUncertaintyAt(i);
            (double k, double spreadK) = Combine(plainK, direct?.Absorption[i]);
            (double s, double spreadS) = Combine(plainS, direct?.Scattering[i]);
            solutions[i] = CharacterizationResult.Solution.FromCovariance(
                k, s, k * k * (Square(uK) + Square(spreadK) + Square(FloorRelative)),
                s * s * (Square(uS) + Square(spreadS) + Square(FloorRelative)), 0);
        }

        progress?.Report(1);
        return new CharacterizationResult(
            readings, options.Model, solutions, smoothest.Findings.Where(finding => finding.IsDetermined), null,
            smoothest.LargeAreaReadings, smoothest.Uncorrected);
    }

    // The smoothest readings have the colours given, so what a large area reads of them has the colours that it sees.
    private static DiscColors LargeColors(DiscColors colors, CharacterizationResult smoothest)
    {
        IReadOnlyList<LargeAreaReading> readings = smoothest.LargeAreaReadings;
        if (readings.Count != 2 || readings[0].Values.Grid != smoothest.Grid)
        {
            throw new ArgumentException(
                $"What the window loses of '{colors.Name}' could not be found at all wavelengths: "
                    + smoothest.Findings.First(finding => !finding.IsDetermined));
        }

        Lab Of(Spectrum values) => colors.Under.ToLab((ReflectanceSpectrum)values);
        Lab Moved(LargeAreaReading reading)
        {
            double[] moved = new double[reading.Values.Grid.Count];
            for (int i = 0; i < moved.Length; i++)
            {
                double value = reading.Values[i] + reading.StandardUncertainty[i];
                moved[i] = Math.Min(ReflectanceSpectrum.Maximum, value);
            }

            return Of(new ReflectanceSpectrum(reading.Values.Grid, moved));
        }

        double change = readings.Max(reading => ColorDifference.Cie76(Of(reading.Values), Moved(reading)));
        return colors with
        {
            OverBlack = Of(readings[0].Values),
            OverWhite = Of(readings[1].Values),
            StandardUncertainty = Math.Min(5, Math.Sqrt(Square(colors.StandardUncertainty) + (Square(change) / 3))),
        };
    }

    // Geometric mean and the log distance of each from the other; where one is missing or zero, a factor of two stands
    // for it.
    private static (double Value, double RelativeSpread) Combine(double plain, double? direct) =>
        direct is double other && other > 0 && plain > 0
        ? (Math.Sqrt(plain * other), Math.Min(2, Math.Abs(Math.Log(plain / other))))
        : (plain, Math.Log(2));

    private static double Square(double value) => value * value;
}
