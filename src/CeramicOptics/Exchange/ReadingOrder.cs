using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Wavelengths of readings: reversed where they fall, checked, and as a grid.</summary>
/// <remarks>Readings of one table often share their wavelengths; each array is looked at once.</remarks>
internal sealed class ReadingOrder(RawTable raw, ImportOptions options)
{
    private readonly Dictionary<double[], (double[] Rising, bool Falls)> _turned = [];
    private readonly Dictionary<double[], WavelengthGrid?> _grids = [];

    /// <summary>True when the wavelengths of a reading fall.</summary>
    public bool AnyFalls => _turned.Values.Any(item => item.Falls);

    /// <summary>Wavelengths that rise, and values in their order.</summary>
    public (double[] Nm, double[] Values, RawReading Reading) Rising(RawReading reading)
    {
        if (!_turned.TryGetValue(reading.Nm, out (double[] Rising, bool Falls) turned))
        {
            bool falls = Check(reading);
            turned = (falls ? [.. Enumerable.Reverse(reading.Nm)] : reading.Nm, falls);
            _turned.Add(reading.Nm, turned);
        }

        return (turned.Rising, turned.Falls ? [.. Enumerable.Reverse(reading.Values)] : reading.Values, reading);
    }

    /// <summary>The wavelengths as a grid; null when they are unequally spaced and will be resampled.</summary>
    public WavelengthGrid? GridOf(double[] nm, RawReading reading)
    {
        if (!_grids.TryGetValue(nm, out WavelengthGrid? grid))
        {
            int uneven = WavelengthGrid.FirstUneven(nm, out _);
            if (uneven >= 0 && options.Grid is null)
            {
                throw new ExchangeException($"{raw.Source}: {Uneven(nm, reading)}");
            }

            grid = uneven >= 0 ? null : ExchangeException.Placed(raw.Source, () => WavelengthGrid.FromWavelengths(nm));
            _grids.Add(nm, grid);
        }

        return grid;
    }

    private bool Check(RawReading reading)
    {
        double[] nm = reading.Nm;
        if (nm.Length < 2)
        {
            throw ExchangeException.AtLine(
                raw.Source, reading.LineOf(0),
                $"reading '{reading.Name}' has {Guard.Text(nm.Length)} wavelength(s) but needs at least 2"
                    + (raw.Dialect is null ? "." : $"; read as {raw.Dialect}."));
        }

        bool falls = nm[1] < nm[0];
        for (int i = 1; i < nm.Length; i++)
        {
            if (nm[i] == nm[i - 1] || nm[i] < nm[i - 1] != falls)
            {
                bool isTwice = Array.IndexOf(nm, nm[i]) < i;
                throw ExchangeException.AtLine(
                    raw.Source, reading.LineOf(i), $"wavelength {Guard.Text(nm[i])} nm of '{reading.Name}' "
                        + (isTwice ? "is given twice." : $"follows {Guard.Text(nm[i - 1])} nm, where the others "
                            + (falls ? "fall." : "rise.")));
            }
        }

        return options.Dialect.WavelengthsFall is { } wish && wish != falls
            ? throw ExchangeException.AtLine(
                raw.Source, reading.LineOf(0),
                $"the wavelengths of '{reading.Name}' {(falls ? "fall" : "rise")}, not as the given dialect says.")
            : falls;
    }

    private static string Uneven(double[] nm, RawReading reading)
    {
        double step = Enumerable.Range(1, nm.Length - 1).Min(i => nm[i] - nm[i - 1]);
        int gap = Enumerable.Range(1, nm.Length - 1).First(i => nm[i] - nm[i - 1] > step + 1e-7);
        double steps = (nm[gap] - nm[gap - 1]) / step;
        string where = Math.Abs(steps - Math.Round(steps)) < 1e-6
            ? $"between {Guard.Text(nm[gap - 1])} and {Guard.Text(nm[gap])} nm wavelengths are missing (others are "
                + $"{Guard.Text(Math.Round(step, 6))} nm apart)"
            : $"wavelengths are not equally spaced ({Guard.Text(nm[gap - 1])} to {Guard.Text(nm[gap])} nm, elsewhere "
                + $"{Guard.Text(Math.Round(step, 6))} nm)";
        return $"in reading '{reading.Name}' {where}; give the grid for resampling (ImportOptions.Grid).";
    }
}
