using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Named reflectance readings on one grid with their metadata, as read from a file.</summary>
/// <remarks>Immutable. See <see cref="SpectralCsv"/> and <see cref="Cgats"/> for the files.</remarks>
public sealed class SpectralTable
{
    private readonly Dictionary<string, ReflectanceSpectrum> _spectra;
    private readonly Dictionary<string, string> _metadata;

    internal SpectralTable(
        string source, Dictionary<string, string> metadata,
        IEnumerable<(string Name, ReflectanceSpectrum Spectrum)> spectra)
    {
        Source = source;
        _metadata = metadata;
        (string Name, ReflectanceSpectrum Spectrum)[] list = [.. spectra];
        Names = Guard.Copy(list.Select(item => item.Name), minimumCount: 1);
        Grid = list[0].Spectrum.Grid;
        _spectra = list.ToDictionary(item => item.Name, item => item.Spectrum);
    }

    /// <summary>A table to be written.</summary>
    /// <param name="source">Name for messages.</param>
    /// <param name="spectra">
    /// At least one reading on one grid; names are unique and hold no comma, quote or line break.
    /// </param>
    /// <param name="metadata">
    /// Metadata; keys of lower-case letters, digits and underscores, values on one line. May be null.
    /// </param>
    /// <exception cref="ArgumentException">
    /// No reading, grids that differ, or a name, key or value that a file could not carry.
    /// </exception>
    public static SpectralTable Create(
        string source, IEnumerable<KeyValuePair<string, ReflectanceSpectrum>> spectra, IEnumerable<KeyValuePair<string,
        string>>? metadata = null)
    {
        (string Name, ReflectanceSpectrum Spectrum)[] list = [.. Guard.Copy(spectra, minimumCount: 1).Select(
            pair => (pair.Key, Guard.NotNull(pair.Value, nameof(spectra))))];
        foreach ((string name, ReflectanceSpectrum spectrum) in list)
        {
            list[0].Spectrum.Grid.RequireSame(spectrum.Grid, $"Reading '{name}'");
            RequireText(
                name, Guard.NotBlank(name).IndexOfAny([',', '"', '\r', '\n']) < 0 && name.Trim() == name, "name");
        }

        string? twice = list.GroupBy(item => item.Name).FirstOrDefault(group => group.Count() > 1)?.Key;
        RequireText(twice ?? "", twice is null, "repeated name");
        Dictionary<string, string> copy = [];
        foreach (KeyValuePair<string, string> pair in metadata ?? [])
        {
            RequireText(
                pair.Key,
                pair.Key.Length > 0 && pair.Key.All(c => c is (>= 'a' and <= 'z') or (>= '0' and <= '9') or '_'),
                "metadata key");
            RequireText(
                pair.Value,
                Guard.NotNull(pair.Value,
                nameof(metadata)).IndexOfAny(['\r', '\n']) < 0 && pair.Value.Trim() == pair.Value, "metadata value");
            copy.Add(pair.Key, pair.Value);
        }

        return new SpectralTable(Guard.NotBlank(source), copy, list);
    }

    /// <summary>The file, as named by the caller.</summary>
    public string Source { get; }

    /// <summary>Wavelengths of all readings.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Names of the readings, in the order of the file.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>Metadata by key, in lower case.</summary>
    public IReadOnlyDictionary<string, string> Metadata => _metadata;

    /// <summary>The reading with a name.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ExchangeException">No such reading; the message lists the names.</exception>
    public ReflectanceSpectrum this[string name] => _spectra.TryGetValue(name, out ReflectanceSpectrum? spectrum)
        ? spectrum
        : throw new ExchangeException($"{Source}: reading '{name}' is missing; found are {string.Join(", ", Names)}.");

    /// <summary>
    /// Reads a table from a file: CGATS text for .txt, .ti3, .sp and .cgats, CxF3 for .cxf, comma-separated values for
    /// .csv.
    /// </summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ExchangeException">Unknown ending, or the file is faulty; names the line.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static SpectralTable Read(string path)
    {
        string extension = Path.GetExtension(Guard.NotBlank(path)).ToLowerInvariant();
        Func<TextReader, string, SpectralTable> read = extension switch
        {
            ".csv" => SpectralCsv.Read,
            ".cxf" => Cxf3.Read,
            ".txt" or ".ti3" or ".sp" or ".cgats" => Cgats.Read,
            _ => throw new ExchangeException(
                $"{path}: files ending in '{extension}' are not known; known are .csv, .txt, .ti3, .sp, .cgats, .cxf."),
        };
        using StreamReader reader = new(path);
        return read(reader, Path.GetFileName(path));
    }

    /// <summary>A metadata value.</summary>
    /// <param name="key">Key, in lower case.</param>
    /// <exception cref="ExchangeException">The key is missing.</exception>
    internal string Required(string key) => _metadata.TryGetValue(key, out string? value)
        ? value
        : throw new ExchangeException($"{Source}: metadata '{key}' is missing.");

    internal double RequiredNumber(string key) => Number(key, Required(key));

    internal double OptionalNumber(string key, double otherwise) =>
        _metadata.TryGetValue(key, out string? value) ? Number(key, value) : otherwise;

    [return: System.Diagnostics.CodeAnalysis.NotNullIfNotNull(nameof(otherwise))]
    internal string? Optional(string key, string? otherwise) =>
        _metadata.TryGetValue(key, out string? value) ? value : otherwise;

    internal bool Has(string name) => _spectra.ContainsKey(name);

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
