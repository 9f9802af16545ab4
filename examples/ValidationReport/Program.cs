using System.Globalization;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Writes docs/validation.md and its picture: published figures first, then a simulated instrument.
/// </summary>
internal static class Program
{
    private static int Main(string[] args)
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        string root = args.Length > 0 ? args[0] : Directory.GetCurrentDirectory();
        string docs = Path.Combine(root, "docs");
        if (!Directory.Exists(docs))
        {
            Console.Error.WriteLine(
                $"There is no folder {docs}. Run from the root of the repository, or give its path.");
            return 2;
        }

        using (StreamWriter report = new(Path.Combine(docs, "validation.md")) { NewLine = "\n" })
        {
            report.WriteLine("# How well predictions hold");
            report.WriteLine();
            report.WriteLine(
                "Written by `dotnet run -c Release --project examples/ValidationReport`; do not edit. Differences "
                    + "are CIEDE2000, D65, 2 degrees.");
            PublishedTables.Write(report, Path.Combine(root, "examples", "ValidationReport", "published"));
            PublishedFiles published = new(root);
            PublishedSlabs.Write(report, published);
            PublishedTranslucency.Write(report, published);
            PublishedTitanium.Write(report, published);
            PaintMixtures.Write(report, Path.Combine(root, "tests", "reference", "paints.csv"));
            SimulatedInstrument.Write(report);
            SimulatedCrowns.Write(report, Path.Combine(root, "tests", "reference"));
        }

        Directory.CreateDirectory(Path.Combine(docs, "images"));
        ValidityChart.Save(Path.Combine(docs, "images", "two-flux-validity.png"));
        WindowLossChart.Save(Path.Combine(docs, "images", "window-loss.png"));
        Console.WriteLine(
            "written: docs/validation.md, docs/images/two-flux-validity.png, docs/images/window-loss.png");
        return 0;
    }
}
