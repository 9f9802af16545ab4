namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Tables of the simulated laboratory that the long run of the tests made: what each source of error costs, and how
/// often stated intervals hold.
/// </summary>
internal static class SimulatedCrowns
{
    public static void Write(TextWriter report, string referenceFolder)
    {
        report.WriteLine("\n## A simulated laboratory with physics unknown to the library\n");
        report.WriteLine(
            "Made by the long run of the tests (`SimulatedCrownTests`, `SimulatedPracticeTests`; "
                + "`tests/reference/simulated_crowns.csv`, `simulated_coverage.csv`). Light is carried by");
        report.WriteLine(
            "an independent solver with phase functions that the library does not use (two Henyey-Greenstein "
                + "functions and an isotropic part, or grains by Rayleigh, Gans and Debye that");
        report.WriteLine(
            "change with wavelength); what a window loses is counted photon by photon, 20,000 packets a reading. "
                + "Eight invented ceramics; constants from one disc of 0.3 to 1 mm over black and");
        report.WriteLine(
            "white in glycerine, di:8°, with the defaults of the library and the area of the instrument stated. "
                + "Crowns of 0.6, 1 and 1.5 mm on a translucent and on an opaque cement over a dark");
        report.WriteLine(
            "and a good stump, 16 wavelengths. Sizes are standard deviations, four laboratories each; rough faces "
                + "scatter "
                + "0.15 and 0.4 of the light of a disc diffusely (upper, lower), 0.05 and 0.3 of");
        report.WriteLine("a crown. One source of error at a time, then together:\n");
        report.WriteLine(
            "| source of error | theory | crowns | mean | standard error | 95th percentile | maximum |\n"
                + "|---|---|---|---|---|---|---|");
        foreach (string line in File.ReadLines(Path.Combine(referenceFolder, "simulated_crowns.csv")).Skip(1))
        {
            string[] parts = line.Split('"');
            string[] values = parts[2].Split(',');
            report.WriteLine(
                $"| {parts[1]} | {values[1]} | {values[2]} | {string.Join(" | ", values.Skip(3).Select(Two))} |");
        }

        report.WriteLine(
            "\nWith radiative transfer and a large area, what the theory does not know adds next to nothing; the noise "
                + "of single readings adds most. A window that is not stated adds more than everything");
        report.WriteLine(
            "else together. Not simulated: windows with rough faces (the share that a window keeps is that of smooth "
                + "ones), discs off the axis of the window, layered crowns.");
        report.WriteLine("\n### How often the stated interval holds\n");
        report.WriteLine(
            "Ceramics, faces and discs are drawn at random, independently of those to which the theories' own errors "
                + "were fitted; "
                + "every input has an error of the stated size: readings 0.003, disc 0.01 mm,");
        report.WriteLine(
            "wall 0.03 mm, film 0.01 mm, stump 0.01, index 0.01, target 0.3, scale of the cement's constants 10 %. "
                + "Large area. The table gives the share of crowns whose true difference lies in the stated 95 % "
                    + "interval, for "
                + "all and by the size of the stated difference:\n");
        report.WriteLine(
            "| theory | difference from | stated difference | crowns | within | below | above | mean width | "
                + "acceptable, stated | acceptable, true |\n|---|---|---|---|---|---|---|---|---|---|");
        foreach (string line in File.ReadLines(Path.Combine(referenceFolder, "simulated_coverage.csv")).Skip(1))
        {
            string[] values = line.Split(',');
            string against = values[1] switch
            {
                "target" => "a target",
                "infinite" => "the infinitely thick wall",
                _ => "the wall over a good substrate",
            };
            report.WriteLine(
                $"| {values[0]} | {against} | {values[2]} | {values[3]} "
                    + $"| {string.Join(" | ", values.Skip(4).Take(3).Select(Three))} "
                    + $"| {Two(values[7])} | {string.Join(" | ", values.Skip(8).Select(Three))} |");
        }

        report.WriteLine(
            "\nBelow: the true difference is smaller than stated, so the wall hides more. Intervals of two-flux theory "
                + "are too "
                + "narrow where the stated difference is below half the limit of");
        report.WriteLine(
            "acceptability, 0.9; whether these crowns are acceptable was still predicted correctly.");
    }

    private static string Two(string value) => double.Parse(value).ToString("0.00");

    private static string Three(string value) => double.Parse(value).ToString("0.000");
}
