using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Uncertainty;
using static System.FormattableString;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The smaller drawings of the page: swatches of zones, the wish, and what makes the answer unsure.</summary>
/// <remarks>Letters are 17 units high, of a width that leaves 8 pt of them on paper.</remarks>
internal static class PageDrawings
{
    // Target and prediction edge to edge: a difference shows at the seam.
    public static string Swatches(CaseFile caseFile, WholeCase decided, PageWords words)
    {
        IReadOnlyList<ZoneMatch> zones = decided.Chosen.Zones;
        StringBuilder svg = new(Head(460, 34 * zones.Count, words.SwatchNote));
        for (int i = 0; i < zones.Count; i++)
        {
            Lab color = Colorimeter.D65TwoDegree.ToLab(
                decided.Chosen.Restoration.StackOver(zones[i].Zone.Stump, zones[i].WallMm).Reflectance());
            int y = 34 * i;
            string text = string.Format(
                words.Language, words.Zone, zones[i].Zone.ToString(words.Language),
                MinimumThickness.RoundedUp(zones[i].WallMm).ToString("0.00", words.Language), zones[i].Difference);
            svg.Append(Box(0, y, 70, 30, Hex(caseFile.TargetColor))).Append(Box(70, y, 70, 30, Hex(color)))
                .Append(Text(150, y + 21, text)).Append('\n');
        }

        return svg.Append($"</svg>\n<p class=\"note\">{words.SwatchNote}</p>\n").ToString();
    }

    public static string Wish(FeasibilityResult wish, PageWords words)
    {
        const string Rim = " stroke=\"#666\"";
        return Head(460, 66, words.NearestSwatch)
            + Box(0.5, 0.5, 120, 40, wish.WishSwatch.ToHex(), Rim)
            + Box(120.5, 0.5, 120, 40, (wish.NearestSwatch ?? wish.WishSwatch).ToHex(), Rim)
            + Text(0, 60, words.WishSwatch) + Text(120, 60, words.NearestSwatch) + "</svg>\n";
    }

    // What each uncertain input does to the difference, one standard uncertainty down and up.
    public static string Tornado(ZonePrediction uncertainty, PageWords words)
    {
        const int Left = 368, Right = 565;
        Contribution[] bars = [.. uncertainty.Contributions.Take(6)];
        double low = bars.Min(bar => Math.Min(bar.DifferenceLow, bar.DifferenceHigh));
        double high = bars.Max(bar => Math.Max(bar.DifferenceLow, bar.DifferenceHigh));
        double Position(double difference) =>
            Left + ((Right - Left) * (difference - low) / Math.Max(high - low, 1e-9));
        int bottom = (26 * bars.Length) + 2;
        StringBuilder svg = new(Head(570, bottom + 22, words.HowSure));
        for (int i = 0; i < bars.Length; i++)
        {
            double from = Position(Math.Min(bars[i].DifferenceLow, bars[i].DifferenceHigh));
            double to = Position(Math.Max(bars[i].DifferenceLow, bars[i].DifferenceHigh));
            svg.Append(Text(0, (26 * i) + 18, Short(bars[i].ToString(words.Language))))
                .Append(Box(from, (26 * i) + 4, Math.Max(2, to - from), 18, "#0072b2")).Append('\n');
        }

        double middle = Position(uncertainty.Difference);
        svg.Append(Invariant(
            $"<path d=\"M{middle:0.0} 0 V{bottom}\" stroke=\"#d55e00\" stroke-width=\"2\"/>"));
        return svg.Append(Text(Left, bottom + 18, low.ToString("0.00", words.Language)))
            .Append(Text(Right, bottom + 18, high.ToString("0.00", words.Language), " text-anchor=\"end\""))
            .Append("</svg>\n").ToString();
    }

    public static string Head(int width, int height, string label) =>
        $"<svg viewBox=\"0 0 {width} {height}\" width=\"{width}\" font-size=\"17\" role=\"img\" "
            + $"aria-label=\"{HtmlReport.Escape(label)}\">\n";

    public static string Text(int x, int y, string text, string more = "") =>
        $"<text x=\"{x}\" y=\"{y}\"{more}>{HtmlReport.Escape(text)}</text>";

    private static string Box(double x, double y, double width, double height, string fill, string more = "") =>
        Invariant($"<rect x=\"{x:0.#}\" y=\"{y:0.#}\" width=\"{width:0.#}\" height=\"{height:0.#}\" fill=\"{fill}\"")
            + $"{more}/>";

    private static string Short(string input) => input.Length > 46 ? input[..45] + "…" : input;

    private static string Hex(Lab color) => Srgb.FromLabReducingChroma(color).ToHex();
}
