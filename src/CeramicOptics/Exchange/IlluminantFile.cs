using System.Xml;
using System.Xml.Linq;
using CeramicOptics.Colorimetry;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Reads light sources, such as an operatory lamp measured with a spectroradiometer.</summary>
/// <remarks>
/// Comma-separated values: heading wavelength_nm,power, then a row a wavelength. IES TM-27-14 (.spdx): the SpectralData
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
                $"{path}: files ending in '{extension}' are not known; known are .csv, .spdx."),
        };
    }

    /// <summary>Reads a source from comma-separated values.</summary>
    /// <param name="reader">The text, at most 16 Mi characters.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <param name="name">Name to show in results.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line.</exception>
    public static Illuminant ReadCsv(TextReader reader, string source, string name)
    {
        string[] lines = TextFile.Lines(Guard.NotNull(reader), Guard.NotBlank(source));
        List<(double Nm, double Power)> rows = [];
        bool headed = false;
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i].Trim();
            if (line.Length == 0 || line[0] == '#')
            {
                continue;
            }

            string[] cells = line.Split(',');
            if (!headed)
            {
                headed = cells.Length == 2 && cells[0].Trim() == "wavelength_nm" && cells[1].Trim() == "power"
                    ? true
                    : throw ExchangeException.AtLine(
                        source, i + 1, $"the heading must be 'wavelength_nm,power' but is '{line}'.");
                continue;
            }

            rows.Add(
                cells.Length == 2 && TextFile.TryNumber(cells[0].Trim(),
                out double nm) && TextFile.TryNumber(cells[1].Trim(), out double power)
                ? (nm, power)
                : throw ExchangeException.AtLine(
                    source, i + 1, $"a wavelength and a power are needed but '{line}' is given."));
        }

        return ToIlluminant(rows, source, name);
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

        return ToIlluminant(rows, source, name);
    }

    private static Illuminant ToIlluminant(List<(double Nm, double Power)> rows, string source, string name)
    {
        if (rows.Count < 2)
        {
            throw new ExchangeException($"{source}: fewer than two wavelengths are given.");
        }

        double[] nm = [.. rows.Select(row => row.Nm)], power = [.. rows.Select(row => row.Power)];
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
