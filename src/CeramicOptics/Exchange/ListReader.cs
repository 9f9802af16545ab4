namespace CeramicOptics.Exchange;

/// <summary>One value per row, with the name of its reading and its wavelength, in any order of rows.</summary>
/// <remarks>
/// Rows of one name, and of one replicate where a column tells it, make a reading. Where its first wavelength comes
/// again without such a column, the next replicate begins.
/// </remarks>
internal static class ListReader
{
    public static IEnumerable<RawReading> Read(TableRows table)
    {
        int[] values = table.Shape.ColumnsOf(ColumnRole.Reading), names = table.Shape.ColumnsOf(ColumnRole.Name),
            replicates = table.Shape.ColumnsOf(ColumnRole.Replicate);
        int wavelength = table.Shape.ColumnsOf(ColumnRole.Wavelength)[0], width = table.Shape.Roles.Length;
        List<Growing> all = [];
        Dictionary<(string, string, int), Growing> open = [];
        foreach (CellRow row in table.Rows)
        {
            table.CheckCount(row, width);
            string name = names.Length > 0 ? row.At(names[0]) : "";
            string replicate = replicates.Length > 0 ? row.At(replicates[0]) : "";
            if (name.Length == 0)
            {
                throw table.Fault(row, "the name of the reading is missing");
            }

            double nm = table.Wavelength(row, wavelength);
            foreach (int column in values)
            {
                bool isNew = !open.TryGetValue((name, replicate, column), out Growing? growing);
                if (isNew || (replicates.Length == 0 && growing!.Nm[0] == nm && growing.Nm.Count > 1))
                {
                    growing = new Growing(values.Length > 1 ? $"{name} {table.Label(column)}" : name);
                    open[(name, replicate, column)] = growing;
                    all.Add(growing);
                }

                growing!.Nm.Add(nm);
                growing.Values.Add(table.Number(row, column));
                growing.Lines.Add(row.Line);
            }
        }

        return all.Select(one => new RawReading(one.Name, [.. one.Nm], [.. one.Values], [.. one.Lines]));
    }

    private sealed record Growing(string Name)
    {
        public List<double> Nm { get; } = [];

        public List<double> Values { get; } = [];

        public List<int> Lines { get; } = [];
    }
}
