using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>Radiative transfer against slabs that others computed or measured (tests/reference/published).</summary>
internal static class PublishedSlabs
{
    public static void Write(TextWriter report, PublishedFiles files)
    {
        report.WriteLine("\n## Slabs that others computed or measured\n");
        report.WriteLine(
            "Constants are given here; nothing is fitted. Each file names its source and its limits.\n");
        report.WriteLine("| slabs | values | mean | 95th percentile | maximum |\n|---|---|---|---|---|");
        TransportLayer slide = new(0, 0, 0, 1, 1.5);
        List<double> glass = [], bare = [];
        foreach (string[] row in files.Rows("slabs_between_glass.csv"))
        {
            double albedo = double.Parse(row[0]), depth = row[1] == "inf" ? 1000 : double.Parse(row[1]);
            TransportResult result = RadiativeTransfer.Solve(
                [slide, new TransportLayer(depth * (1 - albedo), depth * albedo, 0, 1, 1.4), slide], 1, 1);
            glass.Add(Math.Abs(result.NormalReflectance - double.Parse(row[2])));
            if (row[1] != "inf")
            {
                glass.Add(Math.Abs(result.NormalTransmittance - double.Parse(row[3])));
            }
        }

        foreach (string[] row in files.Rows("slabs_index_matched.csv"))
        {
            TransportLayer Layer(int at) => new(
                double.Parse(row[at]) * (1 - double.Parse(row[at + 1])),
                double.Parse(row[at]) * double.Parse(row[at + 1]), 0, 1, 1);
            TransportResult result = RadiativeTransfer.Solve([Layer(2), Layer(4)], 1, 1);
            bare.Add(Math.Abs(result.DiffuseReflectance - double.Parse(row[8])));
            bare.Add(Math.Abs(result.DiffuseTransmittance - double.Parse(row[9])));
        }

        report.WriteLine(Differences.Row(
            "R and T, index 1.4 between glass, by adding-doubling [Prahl]", glass, "0.00000"));
        report.WriteLine(Differences.Row(
            "R and T, one and two layers, index 1 [van de Hulst; Özışık, Shouman]", bare, "0.00000"));
        Silicone(report, files);
        report.WriteLine(
            "\nThe silicone was measured in a sphere; K and S come from another program's fit to the same "
                + "readings, with "
                + "its own correction for light lost past\nthe port, so R tests the forward model alone. A "
                + "plane-parallel "
                + "prediction must give more T than was read. Beyond 1000 nm the silicone scatters\nlittle and "
                + "R loses light "
                + "past the port as well: the worst cases are there.");
    }

    private static void Silicone(TextWriter report, PublishedFiles files)
    {
        List<double> visible = [], infrared = [], passing = [];
        foreach (string[] row in files.Rows("phantom_silicone.csv"))
        {
            double nm = double.Parse(row[0]);
            TransportResult result = RadiativeTransfer.Solve(
                [new TransportLayer(double.Parse(row[4]), double.Parse(row[5]) / 0.1, 0.9, 2.65, double.Parse(row[3]))],
                1, 1, 1e-4);
            (nm <= 1000 ? visible : infrared).Add(Math.Abs(result.NormalReflectance - double.Parse(row[1])));
            if (nm <= 1000)
            {
                passing.Add(result.NormalTransmittance - double.Parse(row[2]));
            }
        }

        report.WriteLine(Differences.Row("R of silicone, 2.65 mm, measured, 400 to 1000 nm", visible, "0.0000"));
        report.WriteLine(Differences.Row("the same, 1010 to 1500 nm", infrared, "0.0000"));
        report.WriteLine(Differences.Row("T above the reading, 400 to 1000 nm", passing, "0.0000"));
    }
}
