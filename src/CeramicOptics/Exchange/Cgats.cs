using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Writes spectral readings as CGATS.17 text, which <see cref="SpectralTable.Read(string, ImportOptions)"/>
/// reads.</summary>
public static class Cgats
{
    private static readonly HashSet<string> OwnKeywords =
    [
        "originator", "meas_type", "spectral_bands", "spectral_start_nm", "spectral_end_nm", "spectral_norm",
        "number_of_fields", "number_of_sets",
    ];

    /// <summary>Writes a table; values are factors (SPECTRAL_NORM 1) and read back exactly.</summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Destination.</param>
    /// <remarks>
    /// The identifier is SPECT, by which other programs recognize spectra without device values.
    /// </remarks>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        WavelengthGrid grid = Guard.NotNull(table).Grid;
        writer.Write(
            $"SPECT\n\nORIGINATOR \"CeramicOptics\"\nMEAS_TYPE \"REFLECTIVE\"\nSPECTRAL_BANDS "
                + $"\"{Guard.Text(grid.Count)}\"\n");
        writer.Write(
            $"SPECTRAL_START_NM \"{Guard.Text(grid.StartNm)}\"\nSPECTRAL_END_NM "
                + $"\"{Guard.Text(grid.EndNm)}\"\nSPECTRAL_NORM \"1\"\n");
        foreach (KeyValuePair<string, string> pair in table.Metadata.Where(pair => !OwnKeywords.Contains(pair.Key)))
        {
            string keyword = pair.Key.ToUpperInvariant();
            writer.Write($"KEYWORD \"{keyword}\"\n{keyword} {Quote(pair.Value)}\n");
        }

        string fields = string.Join(" ", Enumerable.Range(0, grid.Count).Select(i => "SPEC_" + Guard.Text(grid[i])));
        writer.Write(
            $"\nNUMBER_OF_FIELDS {Guard.Text(grid.Count + 1)}\nBEGIN_DATA_FORMAT\nSAMPLE_ID "
                + $"{fields}\nEND_DATA_FORMAT\n");
        writer.Write($"\nNUMBER_OF_SETS {Guard.Text(table.All.Count)}\nBEGIN_DATA\n");
        foreach (KeyValuePair<string, ReflectanceSpectrum> pair in table.All)
        {
            string values = string.Join(" ", pair.Value.Values.ToArray().Select(Guard.Text));
            writer.Write($"{Quote(pair.Key)} {values}\n");
        }

        writer.Write("END_DATA\n");
    }

    internal static bool IsOwn(string key) => OwnKeywords.Contains(key);

    private static string Quote(string text) => "\"" + text.Replace("\"", "\"\"") + "\"";
}
