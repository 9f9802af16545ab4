namespace CeramicOptics.Exchange;

/// <summary>Readings in columns, one wavelength per row; each column belongs to the wavelengths at its left.</summary>
internal static class DownReader
{
    public static IEnumerable<RawReading> Read(TableRows table)
    {
        int[] wavelengths = table.Shape.ColumnsOf(ColumnRole.Wavelength);
        int width = table.Shape.Roles.Length;
        if (wavelengths.Length < 2)
        {
            table.Rows.ForEach(row => table.CheckCount(row, width));
        }

        // Headings that several columns share; pairs of columns then have their names in the row above.
        HashSet<string> shared = [.. table.Shape.ColumnsOf(ColumnRole.Reading).GroupBy(table.Label).Where(
            group => wavelengths.Length > 1 && group.Skip(1).Any()).Select(group => group.Key)];
        for (int w = 0; w < wavelengths.Length; w++)
        {
            int from = wavelengths[w], to = w + 1 < wavelengths.Length ? wavelengths[w + 1] : width;
            int[] columns = [.. Enumerable.Range(from + 1, to - from - 1)
                .Where(column => table.Shape.Roles[column] == ColumnRole.Reading)];

            // The first wavelengths serve columns at their left too; in other pairs a shorter one ends with blanks.
            columns = w > 0 ? columns : [.. Enumerable.Range(0, from)
                .Where(column => table.Shape.Roles[column] == ColumnRole.Reading), .. columns];
            List<CellRow> rows = wavelengths.Length == 1 ? table.Rows
                : [.. table.Rows.Where(row => row.At(from).Length > 0 || columns.Any(c => row.At(c).Length > 0))];
            double[] nm = [.. rows.Select(row => table.Wavelength(row, from))];
            int[] lines = [.. rows.Select(row => row.Line)];
            foreach (int column in columns)
            {
                yield return new RawReading(
                    NameOf(table, from, column, shared), nm,
                    [.. rows.Select(row => table.Number(row, column))], lines);
            }
        }
    }

    private static string NameOf(TableRows table, int from, int column, HashSet<string> shared)
    {
        string heading = table.Label(column);
        for (int c = column; shared.Contains(heading) && c >= from; c--)
        {
            if (table.Shape.RowAbove?.At(c) is { Length: > 0 } above)
            {
                return above;
            }
        }

        return heading;
    }
}
