namespace CeramicOptics.Exchange;

/// <summary>Readings in rows; the wavelengths stand in the heading.</summary>
internal static class AcrossReader
{
    public static IEnumerable<RawReading> Read(TableRows table)
    {
        int[] columns = table.Shape.ColumnsOf(ColumnRole.Wavelength), names = table.Shape.ColumnsOf(ColumnRole.Name);
        double[] nm = [.. columns.Select(column => table.Shape.AcrossNm[column])];
        int width = table.Shape.Roles.Length;
        for (int r = 0; r < table.Rows.Count; r++)
        {
            CellRow row = table.Rows[r];
            if (row.UsedCount > width || (row.UsedCount == 1 && width > 1))
            {
                table.CheckCount(row, width);
            }

            var values = new double[columns.Length];
            for (int k = 0; k < columns.Length; k++)
            {
                values[k] = table.Number(row, columns[k]);
            }

            string name = names.Length > 0 ? row.At(names[0]) : "";
            yield return new RawReading(name.Length > 0 ? name : Guard.Text(r + 1), nm, values, [row.Line]);
        }
    }
}
