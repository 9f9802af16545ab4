using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>
/// The crown dry on a light model, the neighbour, and the crown bonded over its stump, side by side, in predicted
/// colours.
/// </summary>
internal static class CrownDrawing
{
    private const double ModelReflectance = 0.7;

    // The dark background ends at 222; below it stand two lines of captions.
    private const int Middle = 60;

    private const string Gum = "#c48a84";

    private const string Tooth =
        "M12 34 C10 14 30 4 60 4 C90 4 110 14 108 34 C112 80 118 120 112 158 C110 174 96 178 60 178 "
            + "C24 178 10 174 8 158 C2 120 8 80 12 34 Z";

    private const string GumLine =
        "M0 0 H520 V52 C500 66 490 66 480 58 C460 40 380 40 360 58 C346 72 334 72 320 58 C300 40 220 40 200 58 "
            + "C186 72 174 72 160 58 C140 40 60 40 40 58 C30 66 20 66 0 52 Z";

    private const string Shade =
        "<defs><radialGradient id=\"rim\" cx=\"50%\" cy=\"52%\" r=\"62%\">"
            + "<stop offset=\"78%\" stop-color=\"#000\" stop-opacity=\"0\"/>"
            + "<stop offset=\"100%\" stop-color=\"#000\" stop-opacity=\"0.22\"/></radialGradient></defs>\n";

    public static string Draw(CaseFile caseFile, MatchCandidate chosen, PageWords words)
    {
        Restoration made = chosen.Restoration, dry = made.Unbonded(CouplingMedium.Air);
        Substrate model = Substrate.FromMeasuredReflectance(
            "model", ReflectanceSpectrum.Uniform(made.Core.Material.Grid, ModelReflectance), 1.5,
            MeasurementGeometry.DiffuseSpecularIncluded);
        Lab[] onModel = [.. chosen.Zones.Select(zone => Color(dry.StackOver(model, zone.WallMm)))];
        Lab[] bonded = [.. chosen.Zones.Select(zone => Color(made.StackOver(zone.Zone.Stump, zone.WallMm)))];
        StringBuilder svg = new(PageDrawings.Head(520, 266, words.Look));
        svg.Append(Shade).Append("<rect x=\"0\" y=\"0\" width=\"520\" height=\"222\" fill=\"#3a2a2a\"/>\n");
        One(svg, "model", 40, onModel, words.OnModel);
        One(svg, "neighbour", 200, [caseFile.TargetColor], caseFile.TargetName);
        One(svg, "bonded", 360, bonded, words.Bonded);
        svg.Append($"<path d=\"{GumLine}\" fill=\"{Gum}\"/>\n");
        return svg.Append("</svg>\n").ToString();
    }

    // Zones from the gum down, each in the middle of its share of the height.
    private static void One(StringBuilder svg, string id, int x, Lab[] zones, string caption)
    {
        svg.Append($"<linearGradient id=\"{id}\" x1=\"0\" y1=\"0.15\" x2=\"0\" y2=\"1\">");
        for (int i = 0; i < zones.Length; i++)
        {
            string color = Srgb.FromLabReducingChroma(zones[i]).ToHex();
            svg.Append(FormattableString.Invariant(
                $"<stop offset=\"{(i + 0.5) / zones.Length:0.###}\" stop-color=\"{color}\"/>"));
        }

        svg.Append($"</linearGradient><g transform=\"translate({x} 32)\"><path d=\"{Tooth}\" fill=\"url(#{id})\"/>");
        svg.Append($"<path d=\"{Tooth}\" fill=\"url(#rim)\"/></g>");
        int y = 240;
        foreach (string line in Lines(caption))
        {
            svg.Append(PageDrawings.Text(x + Middle, y, line, " text-anchor=\"middle\"")).Append('\n');
            y += 19;
        }
    }

    // One line, or two of about equal length where one would run into its neighbour.
    private static string[] Lines(string caption)
    {
        const int Fits = 18;
        int[] blanks = [.. Enumerable.Range(0, caption.Length).Where(i => caption[i] == ' ')];
        if (caption.Length <= Fits || blanks.Length == 0)
        {
            return [caption];
        }

        int at = blanks.MinBy(i => Math.Abs((2 * i) - caption.Length));
        return [caption[..at], caption[(at + 1)..]];
    }

    private static Lab Color(LayerStack stack) => Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
}
