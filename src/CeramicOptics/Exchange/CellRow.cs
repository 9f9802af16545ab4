namespace CeramicOptics.Exchange;

/// <summary>The fields of one line of a table.</summary>
internal sealed record CellRow(string[] Cells, int Line)
{
    public int Count => Cells.Length;

    /// <summary>A field; empty beyond the last.</summary>
    public string At(int column) => column < Cells.Length ? Cells[column] : "";

    /// <summary>True when nothing stands in any field.</summary>
    public bool IsBlank => Array.TrueForAll(Cells, cell => cell.Length == 0);

    /// <summary>Fields without the empty ones at the end, which spreadsheets leave.</summary>
    public int UsedCount => Array.FindLastIndex(Cells, cell => cell.Length > 0) + 1;
}
