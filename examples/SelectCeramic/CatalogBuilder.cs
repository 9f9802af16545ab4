using CeramicOptics.Characterization;
using CeramicOptics.Exchange;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>Makes the catalogue from disc readings; no K or S is typed in.</summary>
internal static class CatalogBuilder
{
    /// <summary>
    /// Characterizes every disc of a folder. "Name, grade N" in the material's name makes it a ceramic, anything else a
    /// cement.
    /// </summary>
    public static MaterialCatalog FromDiscs(string folder, TextWriter log)
    {
        List<CatalogEntry> entries = [];
        foreach ((string path, DiscFile file, CharacterizationResult result) in Concurrently.Each(
            Directory.GetFiles(folder).Order(StringComparer.Ordinal), Characterize))
        {
            foreach (string finding in result.ExplainFindings())
            {
                log.WriteLine($"{Path.GetFileName(path)}, {finding}");
            }

            entries.Add(Entry(result, file.Provenance));
        }

        return new MaterialCatalog("made from the discs in " + Path.GetFileName(folder), entries);
    }

    private static (string Path, DiscFile File, CharacterizationResult Result) Characterize(string path)
    {
        DiscFile file = MeasurementFile.ReadDiscs(path);
        return (path, file, DiscCharacterization.Find(file.Discs));
    }

    private static CatalogEntry Entry(CharacterizationResult result, Provenance provenance)
    {
        const string GradeMark = ", grade ";
        string name = result.Name;
        int mark = name.IndexOf(GradeMark, StringComparison.Ordinal);
        return mark >= 0 && int.TryParse(name[(mark + GradeMark.Length)..], out int grade)
            ? new CatalogEntry(result.ToMaterial(), MaterialRole.Ceramic, provenance, name[..mark], grade)
            : new CatalogEntry(result.ToMaterial(), MaterialRole.Cement, provenance);
    }
}
