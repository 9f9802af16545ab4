using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Named reflectance readings on one grid with their metadata, as read from a file.</summary>
/// <remarks>
/// Immutable. Text tables of any <see cref="TableDialect"/>, CGATS.17 and CxF3 are read; <see cref="Assumptions"/>
/// lists what the file did not say. Readings of one name are replicates.
/// </remarks>
public sealed class SpectralTable
{
    private readonly Dictionary<string, IReadOnlyList<ReflectanceSpectrum>> _replicates;
    private readonly Dictionary<string, ReflectanceSpectrum> _means;
    private readonly Dictionary<string, string> _metadata;

    internal SpectralTable(
        RawTable raw, IEnumerable<(string Name, ReflectanceSpectrum Spectrum)> spectra,
        IEnumerable<ImportAssumption> assumptions, TableDialect? dialect)
        : this(raw.Source, raw.Metadata, [.. spectra.Select(
            item => new KeyValuePair<string, ReflectanceSpectrum>(item.Name, item.Spectrum))])
    {
        Assumptions = Guard.Copy(assumptions);
        Dialect = dialect;
    }

    private SpectralTable(
        string source, Dictionary<string, string> metadata, KeyValuePair<string, ReflectanceSpectrum>[] all)
    {
        (Source, All, _metadata, Grid, Assumptions) = (source, all, metadata, all[0].Value.Grid, []);
        _replicates = all.GroupBy(pair => pair.Key, pair => pair.Value)
            .ToDictionary(group => group.Key, group => Guard.Copy(group));
        _means = _replicates.ToDictionary(pair => pair.Key, pair => ReplicateSummary.MeanOf(pair.Value));
        Names = Guard.Copy(all.Select(pair => pair.Key).Distinct(), minimumCount: 1);
    }

    /// <summary>A table to be written.</summary>
    /// <param name="source">Name for messages.</param>
    /// <param name="spectra">
    /// At least one reading on one grid; names on one line. Readings of one name are replicates.
    /// </param>
    /// <param name="metadata">
    /// Metadata; keys of lower-case letters, digits and underscores, values on one line. May be null.
    /// </param>
    /// <exception cref="ArgumentException">
    /// No reading, grids that differ, or a name, key or value that a file could not carry.
    /// </exception>
    public static SpectralTable Create(
        string source, IEnumerable<KeyValuePair<string, ReflectanceSpectrum>> spectra,
        IEnumerable<KeyValuePair<string, string>>? metadata = null)
    {
        (string Name, ReflectanceSpectrum Spectrum)[] list = [.. Guard.Copy(spectra, minimumCount: 1).Select(
            pair => (pair.Key, Guard.NotNull(pair.Value, nameof(spectra))))];
        foreach ((string name, ReflectanceSpectrum spectrum) in list)
        {
            list[0].Spectrum.Grid.RequireSame(spectrum.Grid, $"Reading '{name}'");
            RequireText(name, Guard.NotBlank(name).IndexOfAny(['\r', '\n']) < 0 && name.Trim() == name, "name");
        }

        Dictionary<string, string> copy = [];
        foreach (KeyValuePair<string, string> pair in metadata ?? [])
        {
            RequireText(
                pair.Key,
                pair.Key.Length > 0 && pair.Key.All(c => c is (>= 'a' and <= 'z') or (>= '0' and <= '9') or '_'),
                "metadata key");
            RequireText(
                Guard.NotNull(pair.Value, nameof(metadata)),
                pair.Value.IndexOfAny(['\r', '\n']) < 0 && pair.Value.Trim() == pair.Value, "metadata value");
            copy.Add(pair.Key, pair.Value);
        }

        return new SpectralTable(
            Guard.NotBlank(source), copy, [.. list.Select(
                item => new KeyValuePair<string, ReflectanceSpectrum>(item.Name, item.Spectrum))]);
    }

    /// <summary>The file, as named by the caller.</summary>
    internal string Source { get; }

    /// <summary>Wavelengths of all readings.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Names of the readings, in the order of the file.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Metadata by key, in lower case.</summary>
    public IReadOnlyDictionary<string, string> Metadata => _metadata;

    /// <summary>The detected layout of the table; null for CxF3 and for a table that was not read.</summary>
    public TableDialect? Dialect { get; }

    /// <summary>What was assumed because the file does not say it; empty when nothing was.</summary>
    public IReadOnlyList<ImportAssumption> Assumptions { get; }

    /// <summary>The reading with a name; of several replicates their mean.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ExchangeException">No such reading; the message lists the names.</exception>
    public ReflectanceSpectrum this[string name] => Found(_means, name);

    /// <summary>The readings with a name, in the order of the file: one, or several replicates.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ExchangeException">No such reading; the message lists the names.</exception>
    public IReadOnlyList<ReflectanceSpectrum> Replicates(string name) => Found(_replicates, name);

    /// <summary>
    /// Reads a table from a file: a text table of any dialect, CGATS.17 or CxF3, recognized by its content.
    /// </summary>
    /// <param name="path">Path of the file, at most 16 Mi characters of UTF-8, UTF-16 or Latin-1.</param>
    /// <param name="options">What is known of the file beforehand; everything is found from it when null.</param>
    /// <exception cref="ExchangeException">
    /// The file is faulty; names the line, what was found and the dialect that was tried.
    /// </exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static SpectralTable Read(string path, ImportOptions? options = null)
    {
        string name = Path.GetFileName(Guard.NotBlank(path)), text = TextFile.Decoded(path, name, out bool isLatin);
        RawTable raw = Find(TextFile.Lines(new StringReader(text), name), name, options);
        if (isLatin)
        {
            raw.Assumptions.Add(new ImportAssumption(
                ImportAssumptionKind.Encoding, "the text is not UTF-8 and was read as Latin-1."));
        }

        return TableBuilder.Build(raw, options ?? new ImportOptions());
    }

    /// <summary>Reads a table from text, as <see cref="Read(string, ImportOptions)"/> does from a file.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <param name="options">What is known of the file beforehand; everything is found from it when null.</param>
    /// <exception cref="ExchangeException">
    /// The text is faulty; names the line, what was found and the dialect that was tried.
    /// </exception>
    public static SpectralTable Read(TextReader reader, string source, ImportOptions? options = null)
    {
        string[] lines = TextFile.Lines(Guard.NotNull(reader), Guard.NotBlank(source));
        return TableBuilder.Build(Find(lines, source, options), options ?? new ImportOptions());
    }

    /// <summary>Every reading with its name, replicates included, in the order of the file.</summary>
    internal IReadOnlyList<KeyValuePair<string, ReflectanceSpectrum>> All { get; }

    /// <summary>A metadata value.</summary>
    /// <param name="key">Key, in lower case.</param>
    /// <exception cref="ExchangeException">The key is missing.</exception>
    internal string Required(string key) => _metadata.TryGetValue(key, out string? value)
        ? value
        : throw new ExchangeException($"{Source}: metadata '{key}' is missing.");

    /// <summary>A metadata value that has no default, because it changes the answer.</summary>
    /// <param name="key">Key, in lower case.</param>
    /// <param name="known">What it may be, for the message.</param>
    /// <exception cref="ExchangeException">The key is missing.</exception>
    internal string Required(string key, IEnumerable<string> known) => _metadata.TryGetValue(key, out string? value)
        ? value
        : throw new ExchangeException(
            $"{Source}: metadata '{key}' is missing; it has no default and may be {string.Join(", ", known)}.");

    internal double RequiredNumber(string key) => Number(key, Required(key));

    internal double OptionalNumber(string key, double otherwise) =>
        _metadata.TryGetValue(key, out string? value) ? Number(key, value) : otherwise;

    [return: System.Diagnostics.CodeAnalysis.NotNullIfNotNull(nameof(otherwise))]
    internal string? Optional(string key, string? otherwise) =>
        _metadata.TryGetValue(key, out string? value) ? value : otherwise;

    internal bool Has(string name) => _means.ContainsKey(name);

    private static RawTable Find(string[] lines, string source, ImportOptions? options)
    {
        TableDialect wish = (options ?? new ImportOptions()).Dialect;
        if (Array.Exists(lines, line => line.AsSpan().IndexOf('\0') >= 0))
        {
            throw new ExchangeException(
                $"{source}: this is not text; export a workbook as delimited text (CSV) first.");
        }

        string first = Array.Find(lines, line => !string.IsNullOrWhiteSpace(line))?.TrimStart() ?? "";
        return first.Length > 0 && first[0] == '<' ? Cxf3.Read(string.Join("\n", lines), source, wish)
            : CgatsReader.Knows(lines) ? CgatsReader.Read(lines, source, wish)
            : DelimitedReader.Read(lines, source, wish);
    }

    private T Found<T>(Dictionary<string, T> readings, string name) => readings.TryGetValue(name, out T? found)
        ? found
        : throw new ExchangeException(
            $"{Source}: reading '{name}' is missing; found: {TableRows.Listed(Names, Names.Count)}.");

    private static void RequireText(string text, bool isGood, string what)
    {
        if (!isGood)
        {
            throw new ArgumentException($"The {what} '{text}' cannot be written to a file.");
        }
    }

    private double Number(string key, string text) => TextFile.TryNumber(text, out double value)
        ? value
        : throw new ExchangeException($"{Source}: metadata '{key}' must be a number but is '{text}'.");
}
