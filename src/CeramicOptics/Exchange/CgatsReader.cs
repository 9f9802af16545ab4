namespace CeramicOptics.Exchange;

/// <summary>Reads CGATS.17 text.</summary>
/// <remarks>
/// The first table of the file is read. Spectral fields are named SPEC_nnn, SPECTRAL_NMnnn or NMnnn; values are divided
/// by SPECTRAL_NORM; where that is missing, they tell themselves whether they are percent. A reading is named by
/// SAMPLE_NAME, else SAMPLE_ID, else its position; sets of one name are replicates. Numbers may have a decimal comma.
/// Keywords become metadata in lower case. Source: ANSI CGATS.17-2009; ISO 28178:2009.
/// </remarks>
internal static class CgatsReader
{
    public static bool Knows(string[] lines)
    {
        string first = Array.Find(lines, line => !string.IsNullOrWhiteSpace(line))?.TrimStart() ?? "";
        return first.StartsWith("CGATS", StringComparison.Ordinal) || Array.Exists(
            lines, line => line.TrimStart().StartsWith("BEGIN_DATA", StringComparison.Ordinal));
    }

    public static RawTable Read(string[] lines, string source, TableDialect wish)
    {
        Dictionary<string, string> metadata = [];
        int line = ReadKeywords(lines, 0, "BEGIN_DATA_FORMAT", source, metadata), headingLine = line + 1;
        List<string> fields = [];
        line = ReadBlock(lines, line, "END_DATA_FORMAT", source, (tokens, _) => fields.AddRange(tokens));
        line = ReadKeywords(lines, line, "BEGIN_DATA", source, metadata);
        List<CellRow> rows = ReadRows(lines, line, fields.Count, source);
        CheckCount(metadata, "number_of_fields", fields.Count, "fields", source);
        CheckCount(metadata, "number_of_sets", rows.Count, "sets of data", source);
        return ToTable(source, metadata, fields, rows, wish with
        {
            Separator = FieldSeparator.Space, Layout = TableLayout.WavelengthsAcross, HeadingLine = headingLine,
            DecimalMark = wish.DecimalMark ?? MarkOf(rows),
        });
    }

    private static RawTable ToTable(
        string source, Dictionary<string, string> metadata, List<string> fields, List<CellRow> rows,
        TableDialect dialect)
    {
        double? norm = null;
        if (metadata.TryGetValue("spectral_norm", out string? text))
        {
            norm = Cell.TryNumber(text, dialect.DecimalMark ?? DecimalMark.Point, out double stated)
                && stated is >= 1e-3 and <= 1e6 ? stated
                : throw new ExchangeException(
                    $"{source}: SPECTRAL_NORM must be a number from 0.001 to 1000000 but is '{text}'.");
        }

        Dictionary<int, double> nm = [];
        for (int column = 0; column < fields.Count; column++)
        {
            if (Cell.HeadingWavelength(fields[column], DecimalMark.Point) is { } at
                && !char.IsDigit(fields[column][0]))
            {
                nm.Add(column, at);
            }
        }

        if (nm.Count == 0)
        {
            throw new ExchangeException(
                $"{source}: no spectral fields (SPEC_nnn) among {Guard.Text(fields.Count)} fields: "
                    + $"{string.Join(", ", fields.Take(6))}{(fields.Count > 6 ? " and more" : "")}.");
        }

        int name = fields.IndexOf("SAMPLE_NAME");
        name = name >= 0 ? name : fields.IndexOf("SAMPLE_ID");
        TableShape shape = new()
        {
            Dialect = dialect, Headings = [.. fields], FirstRow = 0, FirstOfTable = 0, AcrossNm = nm,
            Roles = [.. fields.Select((_, c) => nm.ContainsKey(c) ? ColumnRole.Wavelength
                : c == name ? ColumnRole.Name : ColumnRole.NotUsed)],
        };
        RawTable table = new(source) { Dialect = shape.Complete, FullScale = dialect.FullScale ?? norm };
        TableRows body = new(rows, source, shape);
        table.Readings.AddRange(AcrossReader.Read(body));
        table.Assumptions.AddRange(body.Assumptions);
        foreach (KeyValuePair<string, string> pair in metadata)
        {
            table.Metadata.Add(pair.Key, pair.Value);
        }

        return table;
    }

    // A comma between digits is a decimal mark here, since blanks separate.
    private static DecimalMark MarkOf(List<CellRow> rows) =>
        rows.Exists(row => Array.Exists(
            row.Cells, cell => Cell.IsNumber(cell, DecimalMark.Comma) && !Cell.IsNumber(cell, DecimalMark.Point)))
            ? DecimalMark.Comma
            : DecimalMark.Point;

    // Keeps keywords up to the line that begins a block.
    private static int ReadKeywords(
        string[] lines, int from, string begin, string source, Dictionary<string, string> metadata)
    {
        for (int i = from; i < lines.Length; i++)
        {
            List<string> tokens = Tokens(lines[i], source, i + 1);
            if (tokens.Count > 0 && tokens[0] == begin)
            {
                return i + 1;
            }

            if (tokens.Count > 0 && tokens[0] == "BEGIN_DATA")
            {
                throw ExchangeException.AtLine(source, i + 1, $"BEGIN_DATA stands before any {begin}.");
            }

            AddKeyword(tokens, metadata);
        }

        throw ExchangeException.AtLine(source, lines.Length, $"the file ends before {begin}.");
    }

    private static List<CellRow> ReadRows(string[] lines, int from, int fieldCount, string source)
    {
        List<CellRow> rows = [];
        List<string> pending = [];
        ReadBlock(lines, from, "END_DATA", source, (tokens, line) =>
        {
            // Long sets may be broken over lines.
            pending.AddRange(tokens);
            if (pending.Count > fieldCount)
            {
                throw ExchangeException.AtLine(
                    source, line,
                    $"a set of data has {Guard.Text(pending.Count)} values but there are {Guard.Text(fieldCount)} "
                        + "fields.");
            }

            if (pending.Count == fieldCount)
            {
                rows.Add(new CellRow(pending.ToArray(), line));
                pending.Clear();
            }
        });
        if (pending.Count > 0)
        {
            throw new ExchangeException(
                $"{source}: the last set of data has {Guard.Text(pending.Count)} values but there are "
                    + $"{Guard.Text(fieldCount)} fields.");
        }

        return rows.Count > 0
            ? rows
            : throw new ExchangeException($"{source}: there is no data between BEGIN_DATA and END_DATA.");
    }

    private static int ReadBlock(string[] lines, int from, string end, string source, Action<List<string>, int> take)
    {
        for (int i = from; i < lines.Length; i++)
        {
            List<string> tokens = Tokens(lines[i], source, i + 1);
            if (tokens.Count > 0 && tokens[0] == end)
            {
                return i + 1;
            }

            if (tokens.Count > 0)
            {
                take(tokens, i + 1);
            }
        }

        throw ExchangeException.AtLine(source, lines.Length, $"the file ends before {end}.");
    }

    private static void AddKeyword(List<string> tokens, Dictionary<string, string> metadata)
    {
        if (tokens.Count >= 2 && tokens[0] != "KEYWORD")
        {
            metadata[tokens[0].ToLowerInvariant()] = string.Join(" ", tokens.Skip(1));
        }
    }

    private static void CheckCount(
        Dictionary<string, string> metadata, string key, int found, string what, string source)
    {
        if (metadata.TryGetValue(key, out string? stated) && stated != Guard.Text(found))
        {
            throw new ExchangeException(
                $"{source}: {key.ToUpperInvariant()} is {stated} but {Guard.Text(found)} {what} are given.");
        }
    }

    // Words between white space; quoted text is one word with doubled quotes for a quote; # starts a comment.
    private static List<string> Tokens(string line, string source, int number)
    {
        List<string> tokens = [];
        for (int i = 0; i < line.Length;)
        {
            if (char.IsWhiteSpace(line[i]))
            {
                i++;
            }
            else if (line[i] == '#')
            {
                break;
            }
            else if (line[i] == '"')
            {
                tokens.Add(Fields.Quoted(line, ref i)
                    ?? throw ExchangeException.AtLine(source, number, "a quoted text is not closed."));
            }
            else
            {
                int start = i;
                while (i < line.Length && !char.IsWhiteSpace(line[i]))
                {
                    i++;
                }

                tokens.Add(line.Substring(start, i - start));
            }
        }

        return tokens;
    }
}
