using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;

namespace CeramicOptics.Mapping;

/// <summary>Thicknesses of the core that meet the criterion, for narrow strips of veneers.</summary>
/// <remarks>
/// Within a strip the table of differences is below the limit by its bound for every veneer and every core from the
/// answer on, not only on a grid: the table is straight along both of its directions, so that its largest values on a
/// strip stand on the edges of the strip and of the table's own parts.
/// </remarks>
internal sealed class CoreMinima
{
    /// <summary>Number of strips.</summary>
    public const int Strips = 256;

    private const int StripsACell = Strips / CellTable.Side;

    private readonly CoreThicknesses[] _ranges = new CoreThicknesses[Strips];

    public CoreMinima(
        CellTable differences, double limit, ThicknessRange veneer, ThicknessRange core, CoreRequirements requirements)
    {
        for (int strip = 0; strip < Strips; strip++)
        {
            List<ThicknessRange> masked = [.. Masked(differences, limit, strip).Select(
                part => new ThicknessRange(core.At(part.From), core.At(part.To)))];
            int node = strip * (CoreRequirements.Count - 1) / Strips;
            double from = requirements.MarginMm(node), upTo = requirements.UpperMarginMm(node);
            ThicknessRange? Reliable(ThicknessRange part) => part.MinMm + from <= part.MaxMm - upTo
                ? new ThicknessRange(part.MinMm + from, part.MaxMm - upTo)
                : null;
            ThicknessRange? met, reliable;
            if (requirements.IsTarget)
            {
                (met, reliable) = ReliableSearch.ThinnestOf(
                    masked, requirements.Strength.MinimumCoreMm(veneer.At(strip / (double)Strips)) ?? 0, Reliable);
                _ranges[strip] = new CoreThicknesses(
                    met?.MinMm ?? double.NaN, met?.MaxMm ?? double.NaN, reliable?.MinMm ?? double.NaN,
                    reliable?.MaxMm ?? double.NaN);
                continue;
            }

            met = masked.Count > 0 && masked[masked.Count - 1].MaxMm == core.MaxMm ? masked[masked.Count - 1] : null;
            reliable = met is { } end ? Reliable(end) : null;
            _ranges[strip] = new CoreThicknesses(
                met?.MinMm ?? double.NaN, double.PositiveInfinity, reliable?.MinMm ?? double.NaN,
                double.PositiveInfinity);
        }
    }

    /// <summary>The answer for a veneer at a share of its range, 0 to 1.</summary>
    public CoreThicknesses this[double share] => _ranges[Math.Max(0, Math.Min((int)(share * Strips), Strips - 1))];

    // Shares of the core's range within the limit for all veneers of a strip, rising.
    private static List<(double From, double To)> Masked(CellTable table, double limit, int strip)
    {
        List<(double From, double To)> parts = [];
        for (int row = 0; row < CellTable.Side; row++)
        {
            int cell = (row * CellTable.Side) + (strip / StripsACell), rows = table.PartsOf(cell);
            double left = strip % StripsACell / (double)StripsACell, right = left + (1.0 / StripsACell);
            List<double> across = [left, right];
            for (int node = (int)(left * rows) + 1; node < right * rows; node++)
            {
                across.Add(node / (double)rows);
            }

            for (int step = 0; step < rows; step++)
            {
                (double from, double to) = (0, 1);
                foreach (double share in across)
                {
                    (double low, double high) = (table.OnRow(cell, step, share), table.OnRow(cell, step + 1, share));
                    double crossing = (limit - low) / (high - low);
                    (from, to) = low <= limit
                        ? (from, high <= limit ? to : Math.Min(to, crossing))
                        : (high <= limit ? Math.Max(from, crossing) : 2, to);
                }

                if (from <= to)
                {
                    Append(parts, Share(row, step + from, rows), Share(row, step + to, rows));
                }
            }
        }

        return parts;
    }

    private static double Share(int row, double step, int rows) => (row + (step / rows)) / CellTable.Side;

    private static void Append(List<(double From, double To)> parts, double from, double to)
    {
        int last = parts.Count - 1;
        if (last >= 0 && parts[last].To == from)
        {
            parts[last] = (parts[last].From, to);
        }
        else
        {
            parts.Add((from, to));
        }
    }
}
