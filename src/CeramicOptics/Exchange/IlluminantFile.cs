using System.Xml;
using System.Xml.Linq;
using CeramicOptics.Colorimetry;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Reads light sources, such as an operatory lamp measured with a spectroradiometer.</summary>
/// <remarks>
/// Delimited text of any dialect: a column of wavelengths and one of powers. IES TM-27-14 (.spdx): the SpectralData
/// elements of the SpectralDistribution. Wavelengths may be unequally spaced; powers are then brought to a 1 nm grid by
/// a monotone cubic. Nothing is extrapolated, so to be used with a <see cref="Colorimeter"/> the data must reach from
/// 380 to 780 nm.
/// </remarks>
public static class IlluminantFile
{
    /// <summary>Reads a source from a file.</summary>
    /// <param name="path">Path of a .csv or .spdx file.</param>
    /// <param name="name">Name to show in results.</param>
    /// <exception cref="ExchangeException">Unknown ending, or the file is faulty; names the line.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Illuminant Read(string path, string name)
    {
        string extension = Path.GetExtension(Guard.NotBlank(path)).ToLowerInvariant();
        using StreamReader reader = new(path);
        return extension switch
        {
            ".csv" => ReadCsv(reader, Path.GetFileName(path), name),
            ".spdx" => ReadSpdx(reader, Path.GetFileName(path), name),
            _ => throw new ExchangeException(
                $"{path}: files ending in '{extension}' are not known; allowed: .csv, .spdx."),
        };
    }

    /// <summary>Reads a source from delimited text.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <param name="name">Name to show in results.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line.</exception>
    public static Illuminant ReadCsv(TextReader reader, string source, string name)
    {
        string[] lines = TextFile.Lines(Guard.NotNull(reader), Guard.NotBlank(source));
        RawTable table = DelimitedReader.Read(
            lines, source, new TableDialect { Layout = TableLayout.WavelengthsDown });
        if (table.Readings.Count != 1)
        {
            throw new ExchangeException(
                $"{source}: one column of powers is needed beside the wavelengths but "
                    + $"{Guard.Text(table.Readings.Count)} are given; read as {table.Dialect}.");
        }

        (double[] nm, double[] power, _) = new ReadingOrder(table, new ImportOptions()).Rising(table.Readings[0]);
        return ToIlluminant(nm, power, source, name);
    }

    /// <summary>Reads a source from IES TM-27-14 XML.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <param name="name">Name to show in results.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line.</exception>
    public static Illuminant ReadSpdx(TextReader reader, string source, string name)
    {
        XDocument document = SafeXml.Load(Guard.NotNull(reader), Guard.NotBlank(source));
        List<(double Nm, double Power)> rows = [];
        foreach (XElement data in document.Descendants().Where(element => element.Name.LocalName == "SpectralData"))
        {
            rows.Add(
                TextFile.TryNumber(data.Attribute("wavelength")?.Value ?? "",
                out double nm) && TextFile.TryNumber(data.Value.Trim(), out double power)
                ? (nm, power)
                : throw ExchangeException.AtLine(
                    source, ((IXmlLineInfo)data).LineNumber, "SpectralData needs a numeric wavelength and value."));
        }

        return rows.Count < 2
            ? throw new ExchangeException($"{source}: fewer than two wavelengths are given.")
            : ToIlluminant([.. rows.Select(row => row.Nm)], [.. rows.Select(row => row.Power)], source, name);
    }

    private static Illuminant ToIlluminant(double[] nm, double[] power, string source, string name)
    {
        return ExchangeException.Placed(source, () =>
        {
            SpectralInterpolation.CheckIncreasing(nm);
            if (WavelengthGrid.FirstUneven(nm, out _) < 0)
            {
                return new Illuminant(name, new PowerSpectrum(WavelengthGrid.FromWavelengths(nm), power));
            }

            WavelengthGrid grid = WavelengthGrid.Range(Math.Ceiling(nm[0]), Math.Floor(nm[nm.Length - 1]), 1);
            return new Illuminant(name, new PowerSpectrum(grid, SpectralInterpolation.MonotoneCubic(nm, power, grid)));
        });
    }
}
