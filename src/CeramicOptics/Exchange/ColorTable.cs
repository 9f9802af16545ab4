using CeramicOptics.Colorimetry;

namespace CeramicOptics.Exchange;

/// <summary>
/// Named L*a*b* readings under one observer and illuminant, such as those of a colorimeter that gives no spectra.
/// </summary>
/// <remarks>Immutable. See <see cref="Cxf3"/> for the file.</remarks>
public sealed class ColorTable
{
    private readonly Dictionary<string, Lab> _colors;

    /// <summary>A table that copies the given readings.</summary>
    /// <param name="source">Name of the file for messages.</param>
    /// <param name="under">Observer and illuminant of all readings.</param>
    /// <param name="colors">At least one reading; names are unique.</param>
    /// <exception cref="ArgumentException">No reading, or a name that is empty or given twice.</exception>
    /// <exception cref="ArgumentOutOfRangeException">L* outside 0 to 110, or a* or b* outside -200 to 200.</exception>
    public ColorTable(string source, Colorimeter under, IEnumerable<KeyValuePair<string, Lab>> colors)
    {
        Source = Guard.NotBlank(source);
        Under = Guard.NotNull(under);
        _colors = [];
        List<string> names = [];
        foreach (KeyValuePair<string, Lab> pair in Guard.NotNull(colors))
        {
            Guard.InRange(pair.Value.L, 0, 110, "", $"L* of '{pair.Key}'");
            Guard.InRange(pair.Value.A, -200, 200, "", $"a* of '{pair.Key}'");
            Guard.InRange(pair.Value.B, -200, 200, "", $"b* of '{pair.Key}'");
            if (_colors.ContainsKey(Guard.NotBlank(pair.Key, "name")))
            {
                throw new ArgumentException($"Reading '{pair.Key}' is given twice.", nameof(colors));
            }

            _colors.Add(pair.Key, pair.Value);
            names.Add(pair.Key);
        }

        Names = Guard.Copy(names, minimumCount: 1, nameof(colors));
    }

    /// <summary>The file, as named by the caller.</summary>
    internal string Source { get; }

    /// <summary>Observer and illuminant of all readings.</summary>
    public Colorimeter Under { get; }

    /// <summary>Names of the readings, in order.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>The reading with a name.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ExchangeException">No such reading; the message lists the names.</exception>
    public Lab this[string name] => _colors.TryGetValue(name, out Lab color)
        ? color
        : throw new ExchangeException($"{Source}: reading '{name}' is missing; found: {string.Join(", ", Names)}.");
}
