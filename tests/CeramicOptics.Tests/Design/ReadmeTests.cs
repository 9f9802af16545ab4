using System.Globalization;
using System.Text.RegularExpressions;
using CeramicOptics.Selection;

namespace CeramicOptics.Tests.Design;

/// <summary>The snippet of the README is this code, and its output is what this code prints.</summary>
public class ReadmeTests
{
    [Fact]
    public void Snippet_and_output_of_the_readme_are_real()
    {
        string[] blocks = [.. Regex.Matches(File.ReadAllText(Repository.PathOf("README.md")).ReplaceLineEndings("\n"), "```(?:csharp|text)\n(.*?)```", RegexOptions.Singleline)
            .Select(match => match.Groups[1].Value)];
        string[] source = File.ReadAllLines(Repository.PathOf("tests", "CeramicOptics.Tests", "Design", "ReadmeTests.cs"));
        int from = Array.FindIndex(source, line => line.Contains("// snippet", StringComparison.Ordinal) && !line.Contains('"')) + 1;
        int to = Array.FindIndex(source, from, line => line.Contains("// end of snippet", StringComparison.Ordinal));
        string body = string.Join('\n', blocks[0].TrimEnd('\n').Split('\n').SkipWhile(line => line.StartsWith("using", StringComparison.Ordinal) || line.Length == 0));
        Assert.Equal(string.Join('\n', source[from..to].Select(line => line[Math.Min(8, line.Length)..])), body);
        Assert.Equal(blocks[1], Run());
    }

    private static string Run()
    {
        StringWriter Console = new(CultureInfo.InvariantCulture) { NewLine = "\n" };

        // snippet
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        Material ceramic = new("ceramic", AbsorptionSpectrum.Uniform(grid, 0.06), ScatteringSpectrum.Uniform(grid, 4.0), 1.53,
            CoefficientUncertainty.OfScale(grid, 0.05));
        Material cement = new("cement", AbsorptionSpectrum.Uniform(grid, 0.03), ScatteringSpectrum.Uniform(grid, 0.9), 1.52);
        Substrate stump = Substrate.FromMeasuredReflectance("dark stump", ReflectanceSpectrum.Uniform(grid, 0.12), 1.54);

        LayerStack crown = new([new Layer(ceramic, 0.9), new Layer(cement, 0.05)], stump);
        Lab onModel = Colorimeter.D65TwoDegree.ToLab(new LayerStack([crown.Layers[0]], stump, CouplingMedium.Air).Reflectance());
        Lab bonded = Colorimeter.D65TwoDegree.ToLab(crown.Reflectance());
        MaskingResult masking = MaskingThickness.Find(crown, 0, (0.3, 3.0), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);

        Console.WriteLine($"L* on the dry model {onModel.L:0.0}, bonded {bonded.L:0.0}");
        Console.WriteLine($"masks from {masking.RecommendedMinimumMm:0.00} ± {masking.ThicknessStandardUncertaintyMm:0.00} mm on");
        foreach (Caution caution in masking.Cautions) Console.WriteLine($"! {caution.Text}");
        // end of snippet
        return Console.ToString();
    }
}
