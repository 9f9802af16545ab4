namespace CeramicOptics.Exchange;

/// <summary>What a reader of one format found, before it is checked and scaled.</summary>
/// <param name="Source">Name of the file for messages.</param>
internal sealed record RawTable(string Source)
{
    private readonly Dictionary<string, int> _uses = [];

    public Dictionary<string, string> Metadata { get; } = [];

    public List<RawReading> Readings { get; } = [];

    public List<ImportAssumption> Assumptions { get; } = [];

    /// <summary>The form found; null for XML.</summary>
    public TableDialect? Dialect { get; init; }

    /// <summary>The number that stands for 1, where the file says it; null where the values must tell.</summary>
    public double? FullScale { get; init; }

    /// <summary>True when the scale comes from a % sign, which many files carry over values from 0 to 1.</summary>
    public bool IsScaleFromPercentSign { get; init; }

    /// <summary>True for the library's own form, whose values are factors.</summary>
    public bool IsOwnForm { get; init; }

    /// <summary>
    /// Keeps metadata under a key of lower-case letters, digits and underscores, once for each value.
    /// </summary>
    public void Keep(string key, string value)
    {
        char[] plain = [.. key.Trim().ToLowerInvariant().Select(c => c is (>= 'a' and <= 'z') or (>= '0' and <= '9')
            ? c
            : '_')];
        string name = new string(plain).Trim('_');
        name = name.Length == 0 ? "remark" : name;
        string free = name;
        while (Metadata.ContainsKey(free))
        {
            _uses[name] = _uses.TryGetValue(name, out int before) ? before + 1 : 2;
            free = $"{name}_{Guard.Text(_uses[name])}";
        }

        Metadata.Add(free, value.Trim());
    }
}
