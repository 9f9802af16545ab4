using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Restorations;

namespace CeramicOptics.Exchange;

/// <summary>A catalogue of characterized materials, kept as JSON.</summary>
/// <remarks>
/// The schema is docs/schema/material-catalog.schema.json, version 2, where each entry names the theory of its
/// constants. Version 1, whose constants are those of two-flux theory, is still read. Unknown and repeated keys are
/// refused. Immutable and safe to share.
/// </remarks>
public sealed class MaterialCatalog
{
    /// <summary>A catalogue.</summary>
    /// <param name="name">Name.</param>
    /// <param name="entries">At least one entry; names are unique.</param>
    /// <exception cref="ArgumentException">No entry, or a name given twice.</exception>
    public MaterialCatalog(string name, IEnumerable<CatalogEntry> entries)
    {
        Name = Guard.NotBlank(name);
        Entries = Guard.Copy(entries, minimumCount: 1);
        string? twice = Entries.GroupBy(entry => entry.Name).FirstOrDefault(group => group.Count() > 1)?.Key;
        if (twice is not null)
        {
            throw new ArgumentException($"Material '{twice}' is in the catalogue twice.", nameof(entries));
        }
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>The entries.</summary>
    public IReadOnlyList<CatalogEntry> Entries { get; }

    /// <summary>The ceramics with their strength limits, ready for <see cref="GradeChoice"/>.</summary>
    public IReadOnlyList<Ceramic> Ceramics => Guard.Copy(Entries.Select(entry => entry.Ceramic).OfType<Ceramic>());

    /// <summary>The stains, ready for <see cref="Stain"/>.</summary>
    public IReadOnlyList<Pigment> Pigments => Guard.Copy(Entries
        .Where(entry => entry.Role == MaterialRole.Stain)
        .Select(
            entry => new Pigment(entry.Name, entry.Material.Model, entry.Material.Absorption,
            entry.Material.Scattering, entry.Material.Uncertainty)));

    /// <summary>The entry with a name.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ArgumentException">No such entry; the message lists the names.</exception>
    public CatalogEntry this[string name] => Entries.FirstOrDefault(entry => entry.Name == name)
        ?? throw new ArgumentException(
            $"Material '{name}' is not in the catalogue; it holds "
                + $"{string.Join(", ", Entries.Select(entry => entry.Name))}.", nameof(name));

    /// <summary>Reads a catalogue from a file.</summary>
    /// <param name="path">Path of the file, at most 64 MiB.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the path of the element.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static MaterialCatalog Load(string path)
    {
        using FileStream stream = File.OpenRead(Guard.NotBlank(path));
        return Read(stream, Path.GetFileName(path));
    }

    /// <summary>Reads a catalogue.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MiB.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line or the path of the element.</exception>
    public static MaterialCatalog Read(Stream stream, string source) =>
        CatalogJson.Read(Guard.NotNull(stream), Guard.NotBlank(source));

    /// <summary>Writes the catalogue to a file; an existing file stays whole until the new one is complete.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void Save(string path) => JsonFile.Save(Guard.NotBlank(path), Write);

    /// <summary>Writes the catalogue as indented UTF-8 JSON; numbers read back exactly.</summary>
    /// <param name="stream">Destination.</param>
    public void Write(Stream stream) => CatalogJson.Write(this, Guard.NotNull(stream));
}
