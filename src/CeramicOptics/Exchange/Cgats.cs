using System.Text.RegularExpressions;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Reads and writes spectral readings as CGATS.17 text.</summary>
/// <remarks>
/// The first table of the file is read. Spectral fields are named SPEC_nnn, SPECTRAL_NMnnn or NMnnn; values are divided
/// by SPECTRAL_NORM, or by 100 when that is missing, because the trade writes reflectance in percent. A reading is
/// named by SAMPLE_NAME, else SAMPLE_ID, else its position. Keywords become metadata in lower case. Source: ANSI
/// CGATS.17-2009; ISO 28178:2009.
/// </remarks>
public static class Cgats
{
    private static readonly HashSet<string> OwnKeywords =
    [
        "originator", "meas_type", "spectral_bands", "spectral_start_nm", "spectral_end_nm", "spectral_norm",
        "number_of_fields", "number_of_sets",
    ];

    private static readonly Regex SpectralField = new(
        @"^(?:SPEC_|SPECTRAL_NM_?|NM_?)(\d+(?:\.\d+)?)$", RegexOptions.CultureInvariant);

    /// <summary>Reads a table.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line.</exception>
    public static SpectralTable Read(TextReader reader, string source)
    {
        string[] lines = TextFile.Lines(Guard.NotNull(reader), Guard.NotBlank(source));
        Dictionary<string, string> metadata = [];
        int line = ReadHeader(lines, source, metadata);
        List<string> fields = [];
        line = ReadBlock(lines, line, "END_DATA_FORMAT", source, (tokens, _) => fields.AddRange(tokens));
        line = ReadUntilData(lines, line, source, metadata);
        List<(string[] Cells, int Line)> rows = ReadRows(lines, line, fields.Count, source);
        CheckCount(metadata, "number_of_fields", fields.Count, "fields", source);
        CheckCount(metadata, "number_of_sets", rows.Count, "sets of data", source);
        return ToTable(source, metadata, fields, rows);
    }

    /// <summary>Writes a table; values are factors (SPECTRAL_NORM 1) and read back exactly.</summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Where to.</param>
    /// <remarks>
    /// The identifier is SPECT, by which programs that compute colours from spectra know a file of spectra without
    /// device values.
    /// </remarks>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        WavelengthGrid grid = Guard.NotNull(table).Grid;
        writer.Write(
            $"SPECT\n\nORIGINATOR \"CeramicOptics\"\nMEAS_TYPE \"REFLECTIVE\"\nSPECTRAL_BANDS "
                + $"\"{Guard.Text(grid.Count)}\"\n");
        writer.Write(
            $"SPECTRAL_START_NM \"{Guard.Text(grid.StartNm)}\"\nSPECTRAL_END_NM "
                + $"\"{Guard.Text(grid.EndNm)}\"\nSPECTRAL_NORM \"1\"\n");
        foreach (KeyValuePair<string, string> pair in table.Metadata.Where(pair => !OwnKeywords.Contains(pair.Key)))
        {
            string keyword = pair.Key.ToUpperInvariant();
            writer.Write($"KEYWORD \"{keyword}\"\n{keyword} {Quote(pair.Value)}\n");
        }

        string fields = string.Join(" ", Enumerable.Range(0, grid.Count).Select(i => "SPEC_" + Guard.Text(grid[i])));
        writer.Write(
            $"\nNUMBER_OF_FIELDS {Guard.Text(grid.Count + 1)}\nBEGIN_DATA_FORMAT\nSAMPLE_ID "
                + $"{fields}\nEND_DATA_FORMAT\n");
        writer.Write($"\nNUMBER_OF_SETS {Guard.Text(table.Names.Count)}\nBEGIN_DATA\n");
        foreach (string name in table.Names)
        {
            writer.Write($"{Quote(name)} {string.Join(" ", table[name].Values.ToArray().Select(Guard.Text))}\n");
        }

        writer.Write("END_DATA\n");
    }

    private static string Quote(string text) => "\"" + text.Replace("\"", "\"\"") + "\"";

    private static SpectralTable ToTable(
        string source, Dictionary<string, string> metadata, List<string> fields, List<(string[] Cells, int Line)> rows)
    {
        (int Column, double Nm)[] spectral = [.. fields
            .Select((field, column) => (column, Match: SpectralField.Match(field)))
            .Where(item => item.Match.Success)
            .Select(
                item => (item.column,
                TextFile.TryNumber(item.Match.Groups[1].Value, out double nm) ? nm : double.NaN))];
        if (spectral.Length == 0)
        {
            throw new ExchangeException($"{source}: no spectral fields (SPEC_nnn) among {fields.Count} fields.");
        }

        WavelengthGrid grid = ExchangeException.Placed(
            $"{source}, spectral fields", () => WavelengthGrid.FromWavelengths([.. spectral.Select(item => item.Nm)]));
        double norm = 100;
        if (metadata.TryGetValue("spectral_norm", out string? text)
            && !(TextFile.TryNumber(text, out norm) && norm > 0))
        {
            throw new ExchangeException($"{source}: SPECTRAL_NORM must be a positive number but is '{text}'.");
        }

        int nameColumn = Math.Max(fields.IndexOf("SAMPLE_NAME"), -1);
        nameColumn = nameColumn >= 0 ? nameColumn : fields.IndexOf("SAMPLE_ID");
        HashSet<string> seen = [];
        List<(string, ReflectanceSpectrum)> spectra = [];
        for (int i = 0; i < rows.Count; i++)
        {
            (string[] cells, int line) = rows[i];
            string name = nameColumn >= 0 ? cells[nameColumn] : Guard.Text(i + 1);
            if (!seen.Add(name))
            {
                throw ExchangeException.AtLine(source, line, $"sample '{name}' is given twice.");
            }

            double[] values = new double[spectral.Length];
            for (int k = 0; k < values.Length; k++)
            {
                if (!TextFile.TryNumber(cells[spectral[k].Column], out double value))
                {
                    throw ExchangeException.AtLine(
                        source, line,
                        $"'{cells[spectral[k].Column]}' in field '{fields[spectral[k].Column]}' is not a finite "
                            + "number.");
                }

                values[k] = value / norm;
            }

            spectra.Add(
                (name,
                ExchangeException.Placed($"{source}, line {Guard.Text(line)}",
                () => new ReflectanceSpectrum(grid, values))));
        }

        return new SpectralTable(source, metadata, spectra);
    }

    // The identifier line, then keywords up to BEGIN_DATA_FORMAT.
    private static int ReadHeader(string[] lines, string source, Dictionary<string, string> metadata)
    {
        for (int i = 0; i < lines.Length; i++)
        {
            List<string> tokens = Tokens(lines[i], source, i + 1);
            if (tokens.Count > 0 && tokens[0] == "BEGIN_DATA_FORMAT")
            {
                return i + 1;
            }

            if (tokens.Count > 0 && tokens[0] == "BEGIN_DATA")
            {
                throw ExchangeException.AtLine(source, i + 1, "BEGIN_DATA stands before any BEGIN_DATA_FORMAT.");
            }

            AddKeyword(tokens, metadata);
        }

        throw ExchangeException.AtLine(source, lines.Length, "the file ends before BEGIN_DATA_FORMAT.");
    }

    private static int ReadUntilData(string[] lines, int from, string source, Dictionary<string, string> metadata)
    {
        for (int i = from; i < lines.Length; i++)
        {
            List<string> tokens = Tokens(lines[i], source, i + 1);
            if (tokens.Count > 0 && tokens[0] == "BEGIN_DATA")
            {
                return i + 1;
            }

            AddKeyword(tokens, metadata);
        }

        throw ExchangeException.AtLine(source, lines.Length, "the file ends before BEGIN_DATA.");
    }

    private static List<(string[] Cells, int Line)> ReadRows(string[] lines, int from, int fieldCount, string source)
    {
        List<(string[] Cells, int Line)> rows = [];
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
                rows.Add((pending.ToArray(), line));
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
                tokens.Add(Quoted(line, ref i, source, number));
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

    private static string Quoted(string line, ref int i, string source, int number)
    {
        System.Text.StringBuilder text = new();
        for (i++; i < line.Length; i++)
        {
            if (line[i] != '"')
            {
                text.Append(line[i]);
            }
            else if (i + 1 < line.Length && line[i + 1] == '"')
            {
                text.Append(line[i++]);
            }
            else
            {
                i++;
                return text.ToString();
            }
        }

        throw ExchangeException.AtLine(source, number, "a quoted text is not closed.");
    }
}
