namespace CeramicOptics.Exchange;

/// <summary>What stands between the fields of a table.</summary>
public enum FieldSeparator
{
    /// <summary>A tabulator.</summary>
    Tab,

    /// <summary>A semicolon, usual where the decimal mark is a comma.</summary>
    Semicolon,

    /// <summary>A comma.</summary>
    Comma,

    /// <summary>A vertical bar.</summary>
    Bar,

    /// <summary>Any run of blanks and tabulators.</summary>
    Space,
}
