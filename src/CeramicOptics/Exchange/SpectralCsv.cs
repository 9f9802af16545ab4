using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Writes spectral readings as comma-separated values: the plainest of the forms that are read.</summary>
/// <remarks>
/// Lines "# key = value" carry metadata. The first other line names the columns: wavelength_nm, then one name for each
/// reading. Each further line is a wavelength in nm and the reflectance factors, 0 to 1. Numbers use a decimal point.
/// </remarks>
public static class SpectralCsv
{
    internal const string WavelengthColumn = "wavelength_nm";

    /// <summary>Writes a table; numbers read back exactly.</summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Destination.</param>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        foreach (KeyValuePair<string, string> pair in Guard.NotNull(table).Metadata)
        {
            writer.Write($"# {pair.Key} = {pair.Value}\n");
        }

        writer.Write(WavelengthColumn);
        foreach (KeyValuePair<string, ReflectanceSpectrum> pair in table.All)
        {
            writer.Write($",{Quoted(pair.Key)}");
        }

        writer.Write("\n");
        for (int i = 0; i < table.Grid.Count; i++)
        {
            writer.Write(Guard.Text(table.Grid[i]));
            foreach (KeyValuePair<string, ReflectanceSpectrum> pair in table.All)
            {
                writer.Write($",{Guard.Text(pair.Value[i])}");
            }

            writer.Write("\n");
        }
    }

    private static string Quoted(string name) => name.IndexOfAny([',', '"', '#', ';']) < 0
        ? name
        : "\"" + name.Replace("\"", "\"\"") + "\"";
}
