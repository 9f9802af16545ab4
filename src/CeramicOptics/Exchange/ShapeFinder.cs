namespace CeramicOptics.Exchange;

/// <summary>Finds headings, layout and columns of a table that has been cut into fields.</summary>
/// <remarks>
/// Reflectances, in percent too, stay below 200 and wavelengths do not: that tells them apart. With wavelengths down,
/// the columns of them have headings that say so, or it is the first column that begins with one; with wavelengths
/// across, two or more neighbouring headings are wavelengths. Whether they rise or fall is checked later.
/// </remarks>
internal static class ShapeFinder
{
    public static TableShape Find(List<CellRow> rows, string source, TableDialect dialect)
    {
        DecimalMark mark = dialect.DecimalMark ?? DecimalMark.Point;
        TableShape? found = dialect.Layout switch
        {
            TableLayout.WavelengthsAcross => Across(rows, dialect, mark),
            null => Down(rows, dialect, mark, source, needsWord: true) ?? Across(rows, dialect, mark)
                ?? Down(rows, dialect, mark, source, needsWord: false),
            _ => Down(rows, dialect, mark, source, needsWord: false),
        };
        return found ?? throw new ExchangeException(
            $"{source}: no wavelengths were found, neither down a column nor across a row (200 to 3000 nm); read as "
                + $"{dialect}. "
                + (rows.Exists(row => Array.Exists(row.Cells, cell => cell is "L*" or "LAB_L"))
                    ? "There are columns of L*, a*, b*, which are colours and no spectra (see ColorCharacterization)."
                    : rows.Count == 0 ? "There is no line of data."
                    : $"Line {Guard.Text(rows[0].Line)} is {Shown(rows[0])}."));
    }

    /// <summary>The fields of a row, for a message.</summary>
    public static string Shown(CellRow row)
    {
        string text = string.Join(" | ", row.Cells.Take(6));
        return $"'{(text.Length > 60 ? $"{text.Substring(0, 60)}…" : text)}'{(row.Count > 6 ? " and more" : "")}";
    }

    private static TableShape? Across(List<CellRow> rows, TableDialect dialect, DecimalMark mark)
    {
        for (int r = 0; r + 1 < rows.Count; r++)
        {
            if (dialect.HeadingLine is { } line && rows[r].Line != line)
            {
                continue;
            }

            Dictionary<int, double> nm = RunOfWavelengths(rows[r], mark);
            int first = r + 1;
            CellRow? units = nm.Count >= 2 && IsUnitRow(rows[first]) ? rows[first++] : null;
            if (nm.Count < 2 || first == rows.Count || !HoldsValues(rows[first], nm.Keys, mark))
            {
                continue;
            }

            int width = Math.Max(rows[r].UsedCount, rows[first].UsedCount);
            var roles = new ColumnRole[width];
            for (int c = 0; c < width; c++)
            {
                roles[c] = nm.ContainsKey(c) ? ColumnRole.Wavelength : ColumnRole.NotUsed;
            }

            SetRoles(roles, rows[r], dialect);
            if (!roles.Contains(ColumnRole.Name) && NameColumn(rows, first, roles, rows[r], mark) is { } name)
            {
                roles[name] = ColumnRole.Name;
            }

            return new TableShape
            {
                Dialect = dialect with { Layout = TableLayout.WavelengthsAcross, HeadingLine = rows[r].Line },
                Headings = rows[r].Cells, FirstRow = first, FirstOfTable = r, UnitRow = units, Roles = roles,
                AcrossNm = nm.Where(pair => roles[pair.Key] == ColumnRole.Wavelength)
                    .ToDictionary(pair => pair.Key, pair => pair.Value),
            };
        }

        return null;
    }

    private static TableShape? Down(
        List<CellRow> rows, TableDialect dialect, DecimalMark mark, string source, bool needsWord)
    {
        int first = FirstData(rows, dialect, mark, needsWord);
        if (first < 0)
        {
            return null;
        }

        int heading = first - 1;
        CellRow? units = null;
        if (heading > 0 && IsUnitRow(rows[heading]) && rows[heading - 1].UsedCount > 1)
        {
            units = rows[heading--];
        }

        bool isHeaded = dialect.HeadingLine != 0 && heading >= 0 && rows[heading].UsedCount > 1
            && (dialect.HeadingLine is null || rows[heading].Line == dialect.HeadingLine);
        CellRow? head = isHeaded ? rows[heading] : null;
        int width = rows[first].UsedCount;
        if (head is not null && head.UsedCount != width && head.Count != rows[first].Count)
        {
            throw ExchangeException.AtLine(source, rows[first].Line, WrongCount(head, rows[first], dialect));
        }

        width = Math.Max(width, head?.UsedCount ?? 0);
        ColumnRole[] roles = RolesDown(rows, first, head, width, mark, dialect);
        bool isListed = dialect.Layout == TableLayout.OneValueARow
            || (dialect.Layout is null && roles.Contains(ColumnRole.Name));
        return new TableShape
        {
            Dialect = dialect with
            {
                Layout = isListed ? TableLayout.OneValueARow : TableLayout.WavelengthsDown,
                HeadingLine = head?.Line ?? 0,
            },
            Headings = head?.Cells ?? [], FirstRow = first,
            FirstOfTable = head is null ? first : heading,
            UnitRow = units, RowAbove = heading > 0 && head is not null ? rows[heading - 1] : null, Roles = roles,
        };
    }

    // The first row whose wavelength goes on in the next row; with the word, only under a heading that says so.
    private static int FirstData(List<CellRow> rows, TableDialect dialect, DecimalMark mark, bool needsWord)
    {
        for (int r = 0; r < rows.Count; r++)
        {
            if (dialect.HeadingLine is { } line && rows[r].Line <= line)
            {
                continue;
            }

            for (int c = 0; c < Math.Min(rows[r].Count, 8); c++)
            {
                if (Cell.BareWavelength(rows[r].Cells[c], mark) is null
                    || !rows[r].Cells.Where((cell, k) => k != c && Cell.LooksLikeNumber(cell)).Any())
                {
                    continue;
                }

                bool hasWord = r > 0 && Cell.IsWavelengthWord(rows[r - 1].At(c))
                    || (r > 1 && IsUnitRow(rows[r - 1]) && Cell.IsWavelengthWord(rows[r - 2].At(c)));
                bool goesOn = r + 1 < rows.Count && Cell.BareWavelength(rows[r + 1].At(c), mark) is not null;
                if (hasWord || (!needsWord && (goesOn || c == 0)))
                {
                    return r;
                }
            }
        }

        return -1;
    }

    private static ColumnRole[] RolesDown(
        List<CellRow> rows, int first, CellRow? head, int width, DecimalMark mark, TableDialect dialect)
    {
        var roles = new ColumnRole[width];
        bool[] isWavelength = [.. Enumerable.Range(0, width).Select(
            c => Cell.BareWavelength(rows[first].At(c), mark) is not null)];
        bool hasWord = head is not null
            && isWavelength.Where((isNm, c) => isNm && Cell.IsWavelengthWord(head.At(c))).Any();
        bool isFound = false;
        for (int c = 0; c < width; c++)
        {
            bool isNm = isWavelength[c] && (hasWord ? Cell.IsWavelengthWord(head!.At(c)) : !isFound);
            isFound |= isNm;
            bool isReplicate = head is not null && Cell.IsReplicateWord(head.At(c));
            roles[c] = isNm ? ColumnRole.Wavelength : isReplicate ? ColumnRole.Replicate : ColumnRole.Reading;
        }

        SetRoles(roles, head, dialect);
        bool mayList = dialect.Layout is null or TableLayout.OneValueARow && roles.Count(
            role => role == ColumnRole.Wavelength) == 1;
        if (mayList && !roles.Contains(ColumnRole.Name) && NameColumn(rows, first, roles, head, mark) is { } name
            && (dialect.Layout is not null || MayBeNames(rows, first, name, roles, head, mark)))
        {
            roles[name] = ColumnRole.Name;
        }

        for (int c = 0; c < width; c++)
        {
            bool holdsNumbers = false;
            for (int r = first; r < rows.Count && !holdsNumbers; r++)
            {
                holdsNumbers = Cell.LooksLikeNumber(rows[r].At(c));
            }

            roles[c] = roles[c] == ColumnRole.Reading && !holdsNumbers ? ColumnRole.NotUsed : roles[c];
        }

        // Without names a number of the replicate tells nothing that the columns do not.
        return roles.Contains(ColumnRole.Name)
            ? roles
            : [.. roles.Select(role => role == ColumnRole.Replicate ? ColumnRole.NotUsed : role)];
    }

    // Where names stand: under the heading that says so most, else the first column of text.
    private static int? NameColumn(
        List<CellRow> rows, int first, ColumnRole[] roles, CellRow? head, DecimalMark mark)
    {
        int? best = null;
        int bestRank = int.MaxValue;
        for (int c = 0; c < roles.Length; c++)
        {
            int rank = roles[c] == ColumnRole.Wavelength ? -1 : Cell.NameRank(head?.At(c) ?? "");
            (best, bestRank) = rank >= 0 && rank < bestRank ? (c, rank) : (best, bestRank);
        }

        for (int c = 0; c < roles.Length && best is null; c++)
        {
            string cell = rows[first].At(c);
            best = roles[c] != ColumnRole.Wavelength && cell.Length > 0 && !Cell.IsNumber(cell, mark) ? c : null;
        }

        return best;
    }

    // Under a heading that says so, text; or numbers, where the first wavelength comes again.
    private static bool MayBeNames(
        List<CellRow> rows, int first, int column, ColumnRole[] roles, CellRow? head, DecimalMark mark)
    {
        if (Cell.NameRank(head?.At(column) ?? "") < 0)
        {
            return false;
        }

        int wavelength = Array.IndexOf(roles, ColumnRole.Wavelength);
        string start = rows[first].At(wavelength);
        return !Cell.IsNumber(rows[first].At(column), mark)
            || rows.FindIndex(first + 1, row => row.At(wavelength) == start) >= 0;
    }

    private static void SetRoles(ColumnRole[] roles, CellRow? head, TableDialect dialect)
    {
        foreach (TableColumn wish in dialect.Columns)
        {
            int column = head is null ? -1 : Array.FindIndex(
                head.Cells, cell => string.Equals(cell, wish.Heading, StringComparison.OrdinalIgnoreCase));
            if (column >= 0 && column < roles.Length)
            {
                roles[column] = wish.Role;
            }
        }
    }

    // The longest run of neighbouring fields that are wavelengths.
    private static Dictionary<int, double> RunOfWavelengths(CellRow row, DecimalMark mark)
    {
        double?[] nm = [.. row.Cells.Select(cell => Cell.HeadingWavelength(cell, mark))];
        int bestStart = 0, bestLength = 0;
        for (int start = 0; start < nm.Length;)
        {
            int end = start + 1;
            while (nm[start] is not null && end < nm.Length && nm[end] is not null)
            {
                end++;
            }

            int length = nm[start] is null ? 0 : end - start;
            (bestStart, bestLength) = length > bestLength ? (start, length) : (bestStart, bestLength);
            start = end;
        }

        return Enumerable.Range(bestStart, bestLength).ToDictionary(c => c, c => nm[c]!.Value);
    }

    private static bool HoldsValues(CellRow row, IEnumerable<int> columns, DecimalMark mark)
    {
        int values = 0, count = 0;
        foreach (int column in columns)
        {
            count++;
            values += Cell.TryNumber(row.At(column), mark, out double value) && value < 200 ? 1 : 0;
        }

        return values * 2 > count;
    }

    private static bool IsUnitRow(CellRow row) =>
        Array.TrueForAll(row.Cells, Cell.IsUnit) && Array.Exists(row.Cells, cell => cell is not ("" or "1" or "-"));

    private static string WrongCount(CellRow head, CellRow row, TableDialect dialect)
    {
        string asBoth = dialect.Separator == FieldSeparator.Comma && row.Count > head.Count
            ? " Is the comma both separator and decimal mark? Then the file cannot be read; export it with semicolons."
            : "";
        return $"{Guard.Text(row.Count)} fields are given but line {Guard.Text(head.Line)} has "
            + $"{Guard.Text(head.Count)} headings; read as {dialect}.{asBoth}";
    }
}
