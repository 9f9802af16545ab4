using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>Predictions against measured values from publications.</summary>
internal static class PublishedTables
{
    public static void Write(TextWriter report, string folder)
    {
        report.WriteLine("\n## Published measurements\n");
        string[] files =
            [.. Directory.GetFiles(folder).Where(path => Path.GetExtension(path) is ".csv" or ".lab").Order(
                StringComparer.Ordinal)];
        if (files.Length == 0)
        {
            report.WriteLine(
                "No published table of measured spectra or colours at several thicknesses and backings was available, "
                    + "so "
                    + "predicted colours have not");
            report.WriteLine(
                "yet been compared with measured ones. The loader and the format are in "
                    + "`examples/ValidationReport/published`.");
            return;
        }

        report.WriteLine("| case | predictions | mean | 95th percentile | maximum |\n|---|---|---|---|---|");
        foreach (string path in files)
        {
            report.WriteLine(Path.GetExtension(path) == ".lab" ? LabCase(path) : SpectralCase(path));
        }
    }

    private static string SpectralCase(string path)
    {
        DiscSet all = MeasurementFile.ReadDiscs(path).Discs;
        double first = all.Readings[0].ThicknessMm;
        Material material = DiscCharacterization.Find(
            new DiscSet(all.Name, all.RefractiveIndex, all.Readings.Where(reading => reading.ThicknessMm == first)))
            .ToMaterial();
        List<double> differences = [];
        foreach (
            DiscReading reading in all.Readings.Where(
                reading => reading.ThicknessMm != first && !reading.IsTransmittance))
        {
            LayerStack disc = new(
                [new Layer(material, reading.ThicknessMm)], reading.Backing!.Substrate, reading.Backing.Coupling);
            differences.Add(ColorDifference.Ciede2000(
                Colorimeter.D65TwoDegree.ToLab((ReflectanceSpectrum)reading.Values),
                Colorimeter.D65TwoDegree.ToLab(disc.Reflectance(reading.Geometry))));
        }

        return Differences.Row($"{all.Name} ({Path.GetFileName(path)})", differences);
    }

    private static string LabCase(string path)
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Dictionary<string, string> keys = [];
        List<(double Mm, string Backing, Lab Color)> rows = [];
        foreach (string line in File.ReadLines(path))
        {
            if (line.StartsWith('#') && line.Contains('='))
            {
                keys.Add(line[1..line.IndexOf('=')].Trim(), line[(line.IndexOf('=') + 1)..].Trim());
            }
            else if (line.Length > 0 && char.IsDigit(line[0]))
            {
                string[] cells = line.Split(',');
                rows.Add(
                    (double.Parse(cells[0]), cells[1].Trim(),
                    new Lab(double.Parse(cells[2]), double.Parse(cells[3]), double.Parse(cells[4]))));
            }
        }

        double index = double.Parse(keys["refractive_index"]);
        CouplingMedium? film = keys["coupling"] switch { "air" => CouplingMedium.Air, "water" => CouplingMedium.Water,
            "glycerine" => CouplingMedium.Glycerine, _ => null };
        Backing Tile(string name) =>
            new(Substrate.FromMeasuredReflectance(
                name, ReflectanceSpectrum.Uniform(grid, double.Parse(keys[name])), 1.5,
                MeasurementGeometry.DiffuseSpecularIncluded), film);
        Dictionary<string, Backing> backings = new() { ["black"] = Tile("black"), ["white"] = Tile("white") };
        double first = rows.First(row => rows.Count(other => other.Mm == row.Mm) > 1).Mm;
        Lab Measured(string backing) => rows.First(row => row.Mm == first && row.Backing == backing).Color;
        Material material = ColorCharacterization.Find(
            new DiscColors(keys["material"], index, first, Measured("black"), Measured("white"),
            Colorimeter.D65TwoDegree, backings["black"], backings["white"],
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.NotStated), grid).ToMaterial();
        return Differences.Row(
            $"{keys["material"]}, {keys["citation"]}", [.. rows.Where(row => row.Mm != first).Select(row =>
        {
            Backing backing = backings[row.Backing];
            return ColorDifference.Ciede2000(
                row.Color,
                Colorimeter.D65TwoDegree.ToLab(new LayerStack([new Layer(material, row.Mm)], backing.Substrate,
                backing.Coupling).Reflectance()));
        })]);
    }
}
