using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>
/// The crown dry on a light model, the neighbour, and the crown bonded over its stump, side by side, in predicted colours.
/// </summary>
internal static class CrownDrawing
{
    private const double ModelReflectance = 0.7;

    private const string Gum = "#c48a84", Tooth =
        "M12 34 C10 14 30 4 60 4 C90 4 110 14 108 34 C112 80 118 120 112 158 C110 174 96 178 60 178 C24 178 10 174 8 158 C2 120 8 80 12 34 Z";

    public static string Draw(CaseFile caseFile, MatchCandidate chosen, PageWords words)
    {
        Restoration made = chosen.Restoration, dry = made.Unbonded(CouplingMedium.Air);
        Substrate model = Substrate.FromMeasuredReflectance(
            "model", ReflectanceSpectrum.Uniform(made.Core.Material.Grid, ModelReflectance), 1.5);
        Lab[] onModel = [.. chosen.Zones.Select(zone => Color(dry.StackOver(model, zone.WallMm)))];
        Lab[] bonded = [.. chosen.Zones.Select(zone => Color(made.StackOver(zone.Zone.Stump, zone.WallMm)))];
        StringBuilder svg = new(
            $"<svg viewBox=\"0 0 520 250\" width=\"520\" role=\"img\" aria-label=\"{HtmlReport.Escape(words.Look)}\" "
                + "font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"14\">\n");
        svg.Append(
            "<defs><radialGradient id=\"rim\" cx=\"50%\" cy=\"52%\" r=\"62%\"><stop offset=\"78%\" stop-color=\"#000\" stop-opacity=\"0\"/>"
                + "<stop offset=\"100%\" stop-color=\"#000\" stop-opacity=\"0.22\"/></radialGradient></defs>\n");
        svg.Append($"<rect x=\"0\" y=\"0\" width=\"520\" height=\"222\" fill=\"#3a2a2a\"/>\n");
        One(svg, "model", 40, onModel, words.OnModel);
        One(svg, "neighbour", 200, [caseFile.TargetColor], caseFile.TargetName);
        One(svg, "bonded", 360, bonded, words.Bonded);
        svg.Append($"<path d=\"M0 0 H520 V52 C500 66 490 66 480 58 C460 40 380 40 360 58 C346 72 334 72 320 58 C300 40 220 40 200 58 C186 72 174 72 160 58 C140 40 60 40 40 58 C30 66 20 66 0 52 Z\" fill=\"{Gum}\"/>\n");
        return svg.Append($"</svg>\n<p class=\"note\">{HtmlReport.Escape(words.LookNote)}</p>\n").ToString();
    }

    // Zones from the gum down, each in the middle of its share of the height.
    private static void One(StringBuilder svg, string id, int x, Lab[] zones, string caption)
    {
        svg.Append($"<linearGradient id=\"{id}\" x1=\"0\" y1=\"0.15\" x2=\"0\" y2=\"1\">");
        for (int i = 0; i < zones.Length; i++)
        {
            svg.Append(FormattableString.Invariant(
                $"<stop offset=\"{(i + 0.5) / zones.Length:0.###}\" stop-color=\"{Srgb.FromLabReducingChroma(zones[i]).ToHex()}\"/>"));
        }

        svg.Append($"</linearGradient><g transform=\"translate({x} 32)\"><path d=\"{Tooth}\" fill=\"url(#{id})\"/>");
        svg.Append($"<path d=\"{Tooth}\" fill=\"url(#rim)\"/></g>");
        svg.Append($"<text x=\"{x + 60}\" y=\"241\" text-anchor=\"middle\" font-size=\"12\">{HtmlReport.Escape(caption)}</text>\n");
    }

    private static Lab Color(LayerStack stack) => Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());
}
