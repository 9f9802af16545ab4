using CeramicOptics.Spectra;
using static System.FormattableString;

namespace CeramicOptics.Exchange;

/// <summary>Makes checked spectra on one grid, from 0 to 1, of what a reader of any format found.</summary>
internal static class TableBuilder
{
    // A largest value between the two is neither: too large for a factor and too small for percent.
    private const double LargestFactor = ReflectanceSpectrum.Maximum, SmallestPercent = 3;

    public static SpectralTable Build(RawTable raw, ImportOptions options)
    {
        if (raw.Readings.Count == 0)
        {
            throw new ExchangeException($"{raw.Source}: no readings were found; read as {raw.Dialect}.");
        }

        CheckNames(raw);
        ReadingOrder order = new(raw, options);
        List<(double[] Nm, double[] Values, RawReading Reading)> rising = [.. raw.Readings.Select(order.Rising)];
        double fullScale = FullScale(raw, rising.ConvertAll(item => (item.Values, item.Reading)));
        List<(string, ReflectanceSpectrum)> spectra = [];
        foreach ((double[] nm, double[] values, RawReading reading) in rising)
        {
            double[] factors = [.. values.Select(value => value / fullScale)];
            string place = raw.Dialect is null
                ? $"{raw.Source}, object '{reading.Name}'"
                : reading.Lines.Length == 1
                    ? $"{raw.Source}, line {Guard.Text(reading.Lines[0])}"
                    : $"{raw.Source}, column '{reading.Name}'";
            spectra.Add((reading.Name, ExchangeException.Placed(
                place, () => OnGrid(nm, factors, options, order.GridOf(nm, reading)))));
        }

        foreach ((string name, ReflectanceSpectrum spectrum) in spectra)
        {
            if (!spectrum.Grid.Equals(spectra[0].Item2.Grid))
            {
                throw new ExchangeException(
                    $"{raw.Source}: reading '{name}' is given at {spectrum.Grid} but '{spectra[0].Item1}' at "
                        + $"{spectra[0].Item2.Grid}; give a grid for resampling (ImportOptions.Grid).");
            }
        }

        return new SpectralTable(
            raw, spectra, Assumptions(raw, order, fullScale, options, rising, spectra),
            raw.Dialect is null ? null : raw.Dialect with { FullScale = fullScale, WavelengthsFall = order.AnyFalls });
    }

    private static ReflectanceSpectrum OnGrid(
        double[] nm, double[] factors, ImportOptions options, WavelengthGrid? grid) =>
        options.Grid is not { } wanted ? new ReflectanceSpectrum(grid!, factors)
        : grid is null ? ReflectanceSpectrum.FromSamples(nm, factors, wanted)
        : grid.Equals(wanted) ? new ReflectanceSpectrum(wanted, factors)
        : new ReflectanceSpectrum(grid, factors).Resample(wanted, options.Interpolation);

    // Replicates share a name exactly; names that differ in upper and lower case only are a slip.
    private static void CheckNames(RawTable raw)
    {
        Dictionary<string, RawReading> seen = new(StringComparer.OrdinalIgnoreCase);
        foreach (RawReading reading in raw.Readings)
        {
            if (string.IsNullOrWhiteSpace(reading.Name))
            {
                throw new ExchangeException($"{raw.Source}: a reading has no name.");
            }

            if (!seen.TryGetValue(reading.Name, out RawReading? other))
            {
                seen.Add(reading.Name, reading);
            }
            else if (other.Name != reading.Name)
            {
                throw new ExchangeException(
                    $"{raw.Source}: the names '{other.Name}' and '{reading.Name}' differ in upper and lower case "
                        + "only; replicates need one name, different readings different ones.");
            }
        }
    }

    private static double FullScale(RawTable raw, List<(double[] Values, RawReading Reading)> readings)
    {
        double largest = readings.Max(item => item.Values.Max());
        if (raw.FullScale is { } stated && !(raw.IsScaleFromPercentSign && largest <= LargestFactor))
        {
            return stated == 100 && raw.IsScaleFromPercentSign ? Percent(raw, readings) : stated;
        }

        if (raw.FullScale is not null)
        {
            throw new ExchangeException(
                $"{raw.Source}: the headings say percent but no value is above {Guard.Text(largest)}; "
                    + "say which holds (TableDialect.FullScale, 100 or 1).");
        }

        if (largest <= LargestFactor)
        {
            return 1;
        }

        (double[] _, RawReading low) = readings.Find(item => item.Values.Max() <= LargestFactor);
        if (low is not null)
        {
            throw new ExchangeException(
                $"{raw.Source}: reading '{low.Name}' reaches {Guard.Text(low.Values.Max())} at most and others "
                    + $"{Guard.Text(largest)}; are percent and 0 to 1 mixed? If all are percent, say so "
                    + "(TableDialect.FullScale = 100).");
        }

        return largest >= SmallestPercent
            ? Percent(raw, readings)
            : throw new ExchangeException(
                $"{raw.Source}: the largest value is {Guard.Text(largest)}, too large for 0 to 1 and too small for "
                    + "percent; say which holds (TableDialect.FullScale, 100 or 1).");
    }

    // Where the scale changes in the middle of a reading, neighbours differ about a hundredfold.
    private static double Percent(RawTable raw, List<(double[] Values, RawReading Reading)> readings)
    {
        foreach (RawReading reading in readings.Select(item => item.Reading))
        {
            for (int i = 1; i < reading.Values.Length; i++)
            {
                double low = Math.Min(reading.Values[i], reading.Values[i - 1]),
                    high = Math.Max(reading.Values[i], reading.Values[i - 1]);
                if (low > 0 && low <= LargestFactor && high > 50 * low && high < 200 * low)
                {
                    throw ExchangeException.AtLine(
                        raw.Source, reading.LineOf(i),
                        $"'{reading.Name}' goes from {Guard.Text(reading.Values[i - 1])} at "
                            + $"{Guard.Text(reading.Nm[i - 1])} nm to {Guard.Text(reading.Values[i])} at "
                            + $"{Guard.Text(reading.Nm[i])} nm; are percent and 0 to 1 mixed?");
                }
            }
        }

        return 100;
    }

    private static IEnumerable<ImportAssumption> Assumptions(
        RawTable raw, ReadingOrder order, double fullScale, ImportOptions options,
        List<(double[] Nm, double[] Values, RawReading Reading)> rising,
        List<(string Name, ReflectanceSpectrum Spectrum)> spectra)
    {
        foreach (ImportAssumption assumption in raw.Assumptions)
        {
            yield return assumption;
        }

        if (raw.FullScale is null && !(raw.IsOwnForm && fullScale == 1))
        {
            double largest = rising.Max(item => item.Values.Max());
            yield return new ImportAssumption(
                ImportAssumptionKind.Scale,
                $"values reach {Guard.Text(largest)} and are taken as {(fullScale == 1 ? "0 to 1" : "percent")}; "
                    + "the file does not say.");
        }

        if (order.AnyFalls)
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.WavelengthsTurned, "wavelengths fall; the readings were reversed.");
        }

        foreach (IGrouping<string, ReflectanceSpectrum> group in spectra
            .GroupBy(item => item.Name, item => item.Spectrum).Where(group => group.Skip(1).Any()))
        {
            ReplicateSummary summary = ReplicateSummary.Of(group);
            string conspicuous = string.Join("; ", summary.Findings);
            yield return new ImportAssumption(
                ImportAssumptionKind.Replicates,
                $"'{group.Key}' is read {Guard.Text(summary.Count)} times; its mean is taken"
                    + (conspicuous.Length > 0 ? $", but {conspicuous}." : "."));
        }

        if (options.Grid is { } grid
            && rising.Exists(item => order.GridOf(item.Nm, item.Reading)?.Equals(grid) != true))
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.Resampled,
                Invariant($"readings were brought to {grid} ({options.Interpolation}; unequally spaced ones ")
                    + $"{InterpolationMethod.MonotoneCubic}).");
        }
    }
}
