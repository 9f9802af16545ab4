namespace CeramicOptics.Exchange;

/// <summary>Reads a table of any dialect: the one reader of delimited text.</summary>
internal static class DelimitedReader
{
    public static RawTable Read(string[] lines, string source, TableDialect wish)
    {
        TableDialect dialect = SeparatorFinder.Find(lines, source, wish);
        List<CellRow> rows = [];
        List<CellRow> remarks = [];
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i];
            bool isRemark = line.TrimStart() is { Length: > 0 } text && text[0] == '#';
            if (isRemark || string.IsNullOrWhiteSpace(line))
            {
                if (isRemark)
                {
                    remarks.Add(new CellRow([line.Trim().TrimStart('#').Trim()], i + 1));
                }

                continue;
            }

            CellRow row = new(
                [.. Fields.Split(line, dialect.Separator!.Value) ?? throw ExchangeException.AtLine(
                    source, i + 1, $"a quoted text is not closed; read as {dialect}.")], i + 1);
            if (!row.IsBlank)
            {
                rows.Add(row);
            }
        }

        TableShape shape = ShapeFinder.Find(rows, source, dialect);
        foreach (CellRow? row in new[] { shape.HeadingRow, shape.UnitRow })
        {
            if (row is not null && wish.FullScale is null
                && Array.Find(row.Cells, Cell.SaysNoReflectance) is { } quantity)
            {
                throw ExchangeException.AtLine(
                    source, row.Line, $"'{quantity}' is not reflectance; export reflectance. Where the values are "
                        + $"reflectance all the same, say so (TableDialect.FullScale); read as {shape.Dialect}.");
            }
        }

        RawTable table = new(source)
        {
            Dialect = shape.Complete,
            FullScale = wish.FullScale ?? (shape.SaysPercent || HoldsPercentSigns(rows[shape.FirstRow]) ? 100 : null),
            IsScaleFromPercentSign = wish.FullScale is null,
            IsOwnForm = shape.HeadingOf(0) == SpectralCsv.WavelengthColumn,
        };
        KeepMetadata(table, remarks, rows, shape, lines);
        TableRows body = new(rows, source, shape);
        table.Readings.AddRange(shape.Dialect.Layout switch
        {
            TableLayout.WavelengthsAcross => AcrossReader.Read(body),
            TableLayout.OneValueARow => ListReader.Read(body),
            _ => DownReader.Read(body),
        });
        table.Assumptions.AddRange(body.Assumptions);
        return table;
    }

    private static bool HoldsPercentSigns(CellRow row) => Array.Exists(
        row.Cells, cell => Cell.SaysPercent(cell) && Cell.LooksLikeNumber(cell));

    private static void KeepMetadata(
        RawTable table, List<CellRow> remarks, List<CellRow> rows, TableShape shape, string[] lines)
    {
        foreach (CellRow remark in remarks)
        {
            int equals = remark.Cells[0].IndexOf('=');
            if (equals <= 0)
            {
                // A plain remark.
                continue;
            }

            string key = remark.Cells[0].Substring(0, equals).Trim().ToLowerInvariant();
            if (table.Metadata.ContainsKey(key))
            {
                throw ExchangeException.AtLine(table.Source, remark.Line, $"metadata '{key}' is given twice.");
            }

            table.Metadata.Add(key, remark.Cells[0].Substring(equals + 1).Trim());
        }

        foreach (CellRow row in rows.Take(shape.FirstOfTable))
        {
            string line = lines[row.Line - 1];
            int split = line.IndexOfAny([':', '=']);
            string[] used = [.. row.Cells.Where(cell => cell.Length > 0)];
            if (used.Length > 1 && used[0].IndexOfAny([':', '=']) is var at && (at < 0 || at == used[0].Length - 1))
            {
                table.Keep(used[0].TrimEnd(':', '='), string.Join(", ", used.Skip(1)));
            }
            else if (split > 0)
            {
                table.Keep(line.Substring(0, split), line.Substring(split + 1));
            }
            else
            {
                table.Keep("remark", string.Join(" ", used));
            }
        }
    }
}
