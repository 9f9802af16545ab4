namespace CeramicOptics.Exchange;

/// <summary>Where the data of a table stands, and what its columns hold.</summary>
internal sealed class TableShape
{
    public required TableDialect Dialect { get; init; }

    /// <summary>Headings; empty where there are none.</summary>
    public required string[] Headings { get; init; }

    /// <summary>Position of the first row of data among the rows.</summary>
    public required int FirstRow { get; init; }

    /// <summary>Position of the first row of headings, units or data: what stands before is metadata.</summary>
    public required int FirstOfTable { get; init; }

    /// <summary>The row of headings; null where there is none.</summary>
    public CellRow? HeadingRow => Headings.Length == 0 ? null : new CellRow(Headings, Dialect.HeadingLine ?? 0);

    /// <summary>The row of units under the headings; null where there is none.</summary>
    public CellRow? UnitRow { get; init; }

    /// <summary>The row above the headings, which may name pairs of columns; null where there is none.</summary>
    public CellRow? RowAbove { get; init; }

    /// <summary>What each column holds.</summary>
    public required ColumnRole[] Roles { get; init; }

    /// <summary>Wavelengths of the columns, for a table with wavelengths across.</summary>
    public Dictionary<int, double> AcrossNm { get; init; } = [];

    public string HeadingOf(int column) => column < Headings.Length ? Headings[column] : "";

    public int[] ColumnsOf(ColumnRole role) =>
        [.. Enumerable.Range(0, Roles.Length).Where(column => Roles[column] == role)];

    public bool SaysPercent => Headings.Any(Cell.SaysPercent) || UnitRow?.Cells.Any(Cell.SaysPercent) == true;

    /// <summary>The dialect with all that was found.</summary>
    public TableDialect Complete => Dialect with
    {
        Columns = [.. Roles.Select((role, column) => new TableColumn(HeadingOf(column), role))],
    };
}
