using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>What a characterization says of readings through windows, and of areas that are not stated.</summary>
internal static class WindowReport
{
    // Reduced scattering from which on the correction was compared with photons; and twice that near a polished side.
    private const double LeastTestedPerMm = 1, LeastTestedNearSidePerMm = 2, NearSideMm = 1;

    /// <summary>Large readings at the longest run of wavelengths with a fit.</summary>
    public static List<LargeAreaReading> ReadingsOf(DiscSet discs, WindowFit windows, WavelengthFit?[] fits)
    {
        (int from, int count) = LongestRun(fits);
        List<LargeAreaReading> readings = [];
        if (count < 2)
        {
            return readings;
        }

        WavelengthGrid grid = new(discs.Grid[from], discs.Grid.StepNm, count);
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            DiscReading reading = discs.Readings[r];
            if (!reading.Area.HasWindow)
            {
                continue;
            }

            double[] values = new double[count], uncertainty = new double[count], lost = new double[count];
            for (int i = 0; i < count; i++)
            {
                WavelengthFit fit = fits[from + i]!;
                (double value, double byK, double byS) = windows.Forward.EvaluateWide(r, from + i, fit.K, fit.S);
                double common = (byK * fit.CommonK) + (byS * fit.CommonS);
                double noise = (byK * byK * fit.VarianceK) + (byS * byS * fit.VarianceS)
                    + (2 * byK * byS * fit.Covariance);
                values[i] = Math.Min(ReflectanceSpectrum.Maximum, Math.Max(0, value));
                uncertainty[i] = Math.Min(1, Math.Sqrt(Math.Max(0, noise) + (common * common)));
                lost[i] = 1 - windows.Forward.ShareOf(r, from + i, fit.K, fit.S);
            }

            ReadOnlySpan<double> read = reading.Values.Values.Slice(from, count);
            readings.Add(new LargeAreaReading(
                reading.Name, reading.Area, Like(reading, grid, read), Like(reading, grid, values), uncertainty, lost));
        }

        return readings;
    }

    /// <summary>The largest loss, and scattering below what was tested.</summary>
    public static IEnumerable<Finding> FindingsOf(
        DiscSet discs, IReadOnlyList<LargeAreaReading> readings, WavelengthFit?[] fits,
        CharacterizationResult uncorrected)
    {
        if (readings.Count == 0)
        {
            yield break;
        }

        LargeAreaReading worst = readings.OrderByDescending(reading => reading.LargestLoss).First();
        double lost = worst.LargestLoss, nm = worst.Values.Grid[worst.LostShare.IndexOf(lost)];
        int wavelength = discs.Grid.IndexOf(nm);
        WavelengthFit fit = fits[wavelength]!;
        yield return uncorrected.SolutionAt(wavelength) is { } other
            ? new Finding(
                nm, FindingKind.LightLostSideways, lost, other.Absorption, fit.K, other.Scattering, fit.S)
            : new Finding(nm, FindingKind.LightLostSideways, lost);
        double least = discs.Readings.Any(IsNearPolishedSide) ? LeastTestedNearSidePerMm : LeastTestedPerMm;
        (double Reduced, int Wavelength) clearest = fits
            .Select((item, i) => (Reduced: item is null ? double.PositiveInfinity : ReducedScattering(item), i)).Min();
        if (clearest.Reduced < least)
        {
            yield return new Finding(
                discs.Grid[clearest.Wavelength], FindingKind.OutsideTestedWindows, clearest.Reduced, least);
        }
    }

    /// <summary>What a small window would mean for readings whose area is not stated; null when all are.</summary>
    public static Finding? NotStated(
        DiscSet discs, CharacterizationOptions options, CancellationToken cancellation)
    {
        if (discs.Readings.All(reading => reading.Area.IsStated))
        {
            return null;
        }

        int middle = discs.Grid.Count / 2;
        DiscSet small = discs.With(area => area.IsStated ? area : TypicalBody.SmallWindow);
        bool isFaulty = DiscPair.Of(small, options.Model) is { } pair
            && pair.FaultOf(pair.At(middle), middle) is not null;
        return isFaulty || new DiscFit(small, options, cancellation).Solve(middle) is not { } fit
            ? new Finding(discs.Grid[middle], FindingKind.AreaNotStated)
            : new Finding(discs.Grid[middle], FindingKind.AreaNotStated, fit.K, fit.S);
    }

    private static bool IsNearPolishedSide(DiscReading reading) =>
        reading.Area is { Side: DiscSide.PolishedInAir, DiscRadiusMm: double disc } area
        && disc - Math.Max(area.SpotRadiusMm!.Value, area.WindowRadiusMm!.Value) < NearSideMm;

    private static double ReducedScattering(WavelengthFit fit) =>
        TransportLayer.FromTwoFlux(fit.K, fit.S, 0, 0, 1).ScatteringPerMm;

    private static Spectrum Like(DiscReading reading, WavelengthGrid grid, ReadOnlySpan<double> values) =>
        reading.IsTransmittance ? new TransmittanceSpectrum(grid, values) : new ReflectanceSpectrum(grid, values);

    private static (int From, int Count) LongestRun(WavelengthFit?[] fits)
    {
        (int From, int Count) best = (0, 0);
        int from = 0;
        for (int i = 0; i <= fits.Length; i++)
        {
            if (i == fits.Length || fits[i] is null)
            {
                best = i - from > best.Count ? (from, i - from) : best;
                from = i + 1;
            }
        }

        return best;
    }
}
