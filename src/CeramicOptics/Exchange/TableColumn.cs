namespace CeramicOptics.Exchange;

/// <summary>A column of a table and what it holds.</summary>
public sealed record TableColumn
{
    /// <summary>A column.</summary>
    /// <param name="heading">Heading as it stands in the file; upper and lower case are alike.</param>
    /// <param name="role">What the column holds.</param>
    public TableColumn(string heading, ColumnRole role) =>
        (Heading, Role) = (Guard.NotNull(heading), Guard.Defined(role));

    /// <summary>Heading as it stands in the file; empty where there is none.</summary>
    public string Heading { get; }

    /// <summary>What the column holds.</summary>
    public ColumnRole Role { get; }
}
