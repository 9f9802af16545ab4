namespace CeramicOptics.Exchange;

/// <summary>The layout of a table of readings as text.</summary>
/// <remarks>
/// As an option (<see cref="ImportOptions.Dialect"/>) it need only hold what is known of the file; what is null is
/// detected from the text. As a result (<see cref="SpectralTable.Dialect"/>) it is complete. Immutable, equal by value.
/// </remarks>
public sealed record TableDialect
{
    /// <summary>What stands between fields; null to find it.</summary>
    public FieldSeparator? Separator { get; init => field = value is { } given ? Guard.Defined(given) : null; }

    /// <summary>Decimal mark of the numbers; null to find it.</summary>
    public DecimalMark? DecimalMark { get; init => field = value is { } given ? Guard.Defined(given) : null; }

    /// <summary>Where the wavelengths stand; null to find it.</summary>
    public TableLayout? Layout { get; init => field = value is { } given ? Guard.Defined(given) : null; }

    /// <summary>Line of the headings, from 1; 0 for a table without headings; null to find it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative.</exception>
    public int? HeadingLine
    {
        get;
        init => field = value is { } line ? Guard.InRange(line, 0, int.MaxValue, nameof(HeadingLine)) : null;
    }

    /// <summary>
    /// The number that stands for a reflectance of 1: 1 for factors, 100 for percent; null to find it, 1e-3 to 1e6.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double? FullScale
    {
        get;
        init => field = value is { } scale ? Guard.InRange(scale, 1e-3, 1e6, "", nameof(FullScale)) : null;
    }

    /// <summary>True when the wavelengths fall; such readings are reversed. Null to find it.</summary>
    public bool? WavelengthsFall { get; init; }

    /// <summary>The columns; as an option, only those whose content is not to be detected.</summary>
    public IReadOnlyList<TableColumn> Columns { get; init => field = Guard.Copy(value, name: nameof(Columns)); } = [];

    /// <summary>For example "semicolon, decimal comma, wavelengths across, headings in line 4, percent".</summary>
    public override string ToString()
    {
        string?[] parts =
        [
            Separator?.ToString().ToLowerInvariant(),
            DecimalMark is { } mark ? $"decimal {mark.ToString().ToLowerInvariant()}" : null,
            Layout switch
            {
                TableLayout.WavelengthsDown => "wavelengths down",
                TableLayout.WavelengthsAcross => "wavelengths across",
                TableLayout.OneValueARow => "one value a row",
                _ => null,
            },
            HeadingLine switch { null => null, 0 => "no headings", int line => $"headings in line {Guard.Text(line)}" },
            FullScale switch { null => null, 1 => "0 to 1", 100 => "percent", double of => $"of {Guard.Text(of)}" },
            WavelengthsFall == true ? "falling wavelengths" : null,
        ];
        return string.Join(", ", parts.Where(part => part is not null));
    }
}
