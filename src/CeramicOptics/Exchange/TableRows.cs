namespace CeramicOptics.Exchange;

/// <summary>The rows of data of a table whose shape is known, and the faults they may have.</summary>
internal sealed class TableRows
{
    private readonly string _source;
    private readonly DecimalMark _mark;

    public TableRows(List<CellRow> rows, string source, TableShape shape)
    {
        (_source, Shape, _mark) = (source, shape, shape.Dialect.DecimalMark ?? DecimalMark.Point);
        int last = rows.FindLastIndex(HasNumbers);
        Rows = rows.GetRange(shape.FirstRow, Math.Max(last + 1, shape.FirstRow) - shape.FirstRow);
        if (shape.Headings.Length == 0)
        {
            Assume(
                ImportAssumptionKind.NoHeadings,
                "no line names the columns; the readings are named by their position.");
        }

        if (shape.UnitRow is { } units)
        {
            Assume(ImportAssumptionKind.UnitRow, $"line {Guard.Text(units.Line)} holds units: {Shown(units)}.");
        }

        if (last + 1 < rows.Count)
        {
            Assume(
                ImportAssumptionKind.LinesNotUsed,
                $"lines from {Guard.Text(rows[last + 1].Line)} on hold no data: {Shown(rows[last + 1])}.");
        }

        int[] unused = [.. shape.ColumnsOf(ColumnRole.NotUsed).Where(c => Rows.Exists(row => row.At(c).Length > 0))];
        if (unused.Length > 0)
        {
            Assume(
                ImportAssumptionKind.ColumnsNotUsed,
                $"not read as spectra: {Listed(unused.Select(Label), unused.Length)}.");
        }
    }

    /// <summary>The first dozen of words, for a message.</summary>
    public static string Listed(IEnumerable<string> words, int count) => string.Join(", ", words.Take(12))
        + (count > 12 ? $" and {Guard.Text(count - 12)} more" : "");

    public TableShape Shape { get; }

    public List<CellRow> Rows { get; }

    public List<ImportAssumption> Assumptions { get; } = [];

    /// <summary>The name of a column for messages and, without a heading, for its readings.</summary>
    public string Label(int column) => Shape.HeadingOf(column) is { Length: > 0 } heading
        ? heading
        : $"column {Guard.Text(column + 1)}";

    /// <summary>The number in a field.</summary>
    /// <exception cref="ExchangeException">It holds none; the message says what is wrong with it.</exception>
    public double Number(CellRow row, int column)
    {
        string cell = row.At(column);
        return Cell.TryNumber(cell, _mark, out double value) ? value : throw NotANumber(cell, row, column);
    }

    /// <summary>The wavelength in a field.</summary>
    /// <exception cref="ExchangeException">It holds none.</exception>
    public double Wavelength(CellRow row, int column) => Cell.BareWavelength(row.At(column), _mark)
        ?? throw (Cell.IsNumber(row.At(column), _mark)
            ? Fault(row, $"wavelength '{row.At(column)}' is not within 200 to 3000 nm")
            : NotANumber(row.At(column), row, column));

    public ExchangeException Fault(CellRow row, string fault) =>
        ExchangeException.AtLine(_source, row.Line, $"{fault}; read as {Shape.Dialect}.");

    public void Assume(ImportAssumptionKind kind, string text) => Assumptions.Add(new ImportAssumption(kind, text));

    /// <summary>More fields than columns, or one field where others are separated otherwise.</summary>
    public void CheckCount(CellRow row, int needed)
    {
        int used = row.UsedCount;
        if (used == needed || (used < needed && row.Count == needed))
        {
            return;
        }

        string line = string.Join(" ", row.Cells);
        FieldSeparator[] others = used > 1 ? []
            : [.. SeparatorFinder.Separators.Where(one => Fields.Split(line, one)?.Count == needed)];
        throw Fault(
            row, $"{Guard.Text(needed)} fields are needed but {Guard.Text(used)} are given"
                + (others.Length > 0
                    ? $"; this line has {others[0].ToString().ToLowerInvariant()} between fields"
                    : ""));
    }

    private static string Shown(CellRow row) => ShapeFinder.Shown(row);

    private bool HasNumbers(CellRow row) => Array.Exists(row.Cells, Cell.LooksLikeNumber)
        && (row.UsedCount > 1 || Cell.LooksLikeNumber(row.Cells[0]) || row.Count == Shape.Roles.Length);

    private ExchangeException NotANumber(string cell, CellRow row, int column)
    {
        DecimalMark other = _mark == DecimalMark.Comma ? DecimalMark.Point : DecimalMark.Comma;
        string where = $" in column '{Label(column)}'";
        return Fault(row, cell.Length == 0
            ? $"a value is missing{where}"
            : Cell.LooksLikeNumber(cell) && cell.Count(c => c is '.' or ',') > 1
                ? $"'{cell}'{where} has more than one decimal mark"
                : Cell.IsNumber(cell, other)
                    ? $"'{cell}'{where} has a decimal {other.ToString().ToLowerInvariant()}"
                    : $"'{cell}'{where} is not a finite number");
    }
}
