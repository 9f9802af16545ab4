using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Reads and writes spectral readings as comma-separated values.</summary>
/// <remarks>
/// Lines "# key = value" carry metadata. The first other line names the columns: wavelength_nm, then one name for each
/// reading. Each further line is a wavelength in nm and the reflectance factors, 0 to 1. Numbers use a decimal point.
/// Empty lines are skipped.
/// </remarks>
public static class SpectralCsv
{
    private const string WavelengthColumn = "wavelength_nm";

    /// <summary>Reads a table.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line.</exception>
    public static SpectralTable Read(TextReader reader, string source)
    {
        string[] lines = TextFile.Lines(Guard.NotNull(reader), Guard.NotBlank(source));
        Dictionary<string, string> metadata = [];
        string[]? columns = null;
        List<double[]> rows = [];
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i].Trim();
            if (line.Length == 0)
            {
                continue;
            }

            if (line[0] == '#')
            {
                ReadMetadata(line, source, i + 1, metadata);
            }
            else if (columns is null)
            {
                columns = ReadColumns(line, source, i + 1);
            }
            else
            {
                rows.Add(ReadRow(line, columns, rows, source, i + 1));
            }
        }

        if (columns is null || rows.Count < 2)
        {
            throw ExchangeException.AtLine(
                source, lines.Length, "the file ends before a heading and two rows of data.");
        }

        WavelengthGrid grid = ExchangeException.Placed(
            $"{source}, {WavelengthColumn}", () => WavelengthGrid.FromWavelengths([.. rows.Select(row => row[0])]));
        return new SpectralTable(source, metadata, columns.Skip(1).Select((name, column) => (
            name,
            ExchangeException.Placed(
                $"{source}, column '{name}'",
                () => new ReflectanceSpectrum(grid, [.. rows.Select(row => row[column + 1])])))));
    }

    /// <summary>Writes a table; numbers read back exactly.</summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Where to.</param>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        foreach (KeyValuePair<string, string> pair in Guard.NotNull(table).Metadata)
        {
            writer.Write($"# {pair.Key} = {pair.Value}\n");
        }

        writer.Write($"{WavelengthColumn},{string.Join(",", table.Names)}\n");
        for (int i = 0; i < table.Grid.Count; i++)
        {
            writer.Write(Guard.Text(table.Grid[i]));
            foreach (string name in table.Names) writer.Write($",{Guard.Text(table[name][i])}");
            writer.Write("\n");
        }
    }

    private static void ReadMetadata(string line, string source, int number, Dictionary<string, string> metadata)
    {
        int equals = line.IndexOf('=');
        if (equals < 0)
        {
            // A plain remark.
            return;
        }

        string key = line.Substring(1, equals - 1).Trim().ToLowerInvariant();
        if (metadata.ContainsKey(key))
        {
            throw ExchangeException.AtLine(source, number, $"metadata '{key}' is given twice.");
        }

        metadata.Add(key, line.Substring(equals + 1).Trim());
    }

    private static string[] ReadColumns(string line, string source, int number)
    {
        string[] columns = [.. line.Split(',').Select(column => column.Trim())];
        if (columns[0] != WavelengthColumn || columns.Length < 2)
        {
            throw ExchangeException.AtLine(
                source, number, $"the heading must be '{WavelengthColumn}' and at least one reading but is '{line}'.");
        }

        string? twice = columns.GroupBy(column => column).FirstOrDefault(group => group.Count() > 1)?.Key;
        return twice is null
            ? columns
            : throw ExchangeException.AtLine(source, number, $"column '{twice}' is given twice.");
    }

    private static double[] ReadRow(string line, string[] columns, List<double[]> rows, string source, int number)
    {
        string[] cells = line.Split(',');
        if (cells.Length != columns.Length)
        {
            throw ExchangeException.AtLine(
                source, number,
                $"{Guard.Text(columns.Length)} values are needed but {Guard.Text(cells.Length)} are given.");
        }

        double[] row = new double[cells.Length];
        for (int k = 0; k < cells.Length; k++)
        {
            if (!TextFile.TryNumber(cells[k].Trim(), out row[k]))
            {
                throw ExchangeException.AtLine(
                    source, number, $"'{cells[k].Trim()}' in column '{columns[k]}' is not a finite number.");
            }
        }

        if (rows.Count > 0 && row[0] <= rows[rows.Count - 1][0])
        {
            string fault = row[0] == rows[rows.Count - 1][0] ? "is given twice" : "is smaller than the one before";
            throw ExchangeException.AtLine(source, number, $"wavelength {Guard.Text(row[0])} nm {fault}.");
        }

        return row;
    }
}
