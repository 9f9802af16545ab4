using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Named reflectance readings on one grid with their metadata, as read from a file.</summary>
/// <remarks>Immutable. See <see cref="SpectralCsv"/> and <see cref="Cgats"/> for the files.</remarks>
public sealed class SpectralTable
{
    private readonly Dictionary<string, ReflectanceSpectrum> _spectra;
    private readonly Dictionary<string, string> _metadata;

    internal SpectralTable(string source, Dictionary<string, string> metadata, IEnumerable<(string Name, ReflectanceSpectrum Spectrum)> spectra)
    {
        Source = source;
        _metadata = metadata;
        (string Name, ReflectanceSpectrum Spectrum)[] list = [.. spectra];
        Names = Guard.Copy(list.Select(item => item.Name), minimumCount: 1);
        Grid = list[0].Spectrum.Grid;
        _spectra = list.ToDictionary(item => item.Name, item => item.Spectrum);
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

    /// <summary>Reads a table from a file: CGATS text for .txt, .ti3, .sp and .cgats, comma-separated values for .csv.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ExchangeException">Unknown ending, or the file is faulty; names the line.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static SpectralTable Read(string path)
    {
        string extension = Path.GetExtension(Guard.NotBlank(path)).ToLowerInvariant();
        Func<TextReader, string, SpectralTable> read = extension switch
        {
            ".csv" => SpectralCsv.Read,
            ".txt" or ".ti3" or ".sp" or ".cgats" => Cgats.Read,
            _ => throw new ExchangeException($"{path}: files ending in '{extension}' are not known; known are .csv, .txt, .ti3, .sp, .cgats."),
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

    internal double OptionalNumber(string key, double otherwise) => _metadata.TryGetValue(key, out string? value) ? Number(key, value) : otherwise;

    [return: System.Diagnostics.CodeAnalysis.NotNullIfNotNull(nameof(otherwise))]
    internal string? Optional(string key, string? otherwise) => _metadata.TryGetValue(key, out string? value) ? value : otherwise;

    internal bool Has(string name) => _spectra.ContainsKey(name);

    private double Number(string key, string text) => TextFile.TryNumber(text, out double value)
        ? value
        : throw new ExchangeException($"{Source}: metadata '{key}' must be a number but is '{text}'.");
}
