using System.Globalization;
using System.Net;
using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>One page for dentist and patient: HTML with drawings inside, nothing loaded from elsewhere, made to be printed.</summary>
internal static class HtmlReport
{
    private const string Style =
        """
        body { font: 16px/1.45 "DejaVu Sans", Verdana, sans-serif; color: #1a1a1a; background: #fff; max-width: 50rem; margin: 1.5rem auto; padding: 0 1rem; }
        h1 { font-size: 1.5rem; margin: 0 0 .2rem; } h2 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; }
        p { margin: .4rem 0; } .note { color: #444; font-size: .85rem; }
        table { border-collapse: collapse; width: 100%; font-size: .85rem; } caption { text-align: left; font-size: .85rem; color: #444; padding-bottom: .3rem; }
        th, td { text-align: left; vertical-align: top; padding: .3rem .5rem; border-bottom: 1px solid #999; } td.n, th.n { text-align: right; white-space: nowrap; }
        .answer { border-left: .4rem solid #0072b2; padding: .5rem .8rem; background: #f2f6fa; }
        .caution { border: 2px solid #8a3c00; padding: .4rem .8rem; } svg { max-width: 100%; height: auto; }
        @media (min-width: 45rem) { td:first-child { white-space: nowrap; } }
        @page { size: A4; margin: 9mm 14mm; }
        @media print {
          html { font-size: 7.9pt; } body { font-size: 7.9pt; line-height: 1.25; margin: 0; padding: 0; max-width: none; } h1 { font-size: 13pt; } h2 { font-size: 9.5pt; margin: .6rem 0 .15rem; }
          p { margin: .2rem 0; } th, td { padding: .1rem .4rem; } ul { margin: .2rem 0; } svg { width: 50%; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
          .answer { background: none; padding: .1rem .6rem; } .caution { padding: .1rem .6rem; } tr, section { break-inside: avoid; }
        }
        """;

    public static void Save(string path, CaseFile caseFile, WholeCase decided)
    {
        MatchCandidate best = decided.Chosen;
        StringBuilder html = new();
        html.Append(Text($"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{Escape(caseFile.Name)}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n"));
        html.Append(Text($"<h1>{Escape(Capital(caseFile.Name))}</h1>\n<p class=\"note\">Predicted before anything is made.{(caseFile.IsInvented ? " All data on this page is invented for demonstration." : "")}</p>\n"));
        ZonePrediction sure = decided.Uncertainty;
        html.Append(Text($"<section class=\"answer\"><p>Suggested for review: <strong>{Escape(best.ToString())}</strong>. It {(sure.Meets.Value >= WholeCase.ReliableShare ? "is the most translucent choice that reliably matches" : best.Meets ? "matches, but not reliably," : "comes nearest to")} the {Escape(caseFile.TargetName)}. The largest difference, in zone {Escape(best.Limiting.Zone.Name)}, is {best.WorstDifference:0.0}; the limit asked for is {caseFile.Criterion.Limit:0.0} ({Escape(caseFile.Criterion.Name)}: half of all people would {(caseFile.Criterion.Limit < 1 ? "not see" : "accept")} a difference of that size). With probability {100 * sure.Meets.Value:0} % the finished crown stays within the limit in that zone.</p></section>\n"));
        html.Append("<h2>What it will look like</h2>\n").Append(Swatches(caseFile, decided)).Append('\n');
        html.Append("<h2>What can be reached</h2>\n");
        html.Append(Text($"<p>{Escape(decided.Feasibility.Sentence)}</p>\n"));
        if (decided.Wish is not null)
        {
            html.Append(Text($"<p><strong>Asked beside: {Escape(caseFile.Wish!.Name)}.</strong> {Escape(decided.Wish.Sentence)}</p>\n"));
            html.Append(Pair(decided.Wish)).Append('\n');
        }

        html.Append(Ranking(decided));
        if (decided.Remedies.Remedies.Count > 0)
        {
            html.Append("<h2>What would bring it nearer</h2>\n<ul>\n");
            foreach (Remedy remedy in decided.Remedies.Remedies.Take(4))
            {
                html.Append(Text($"<li>{Escape(Capital(remedy.ToString()))}.</li>\n"));
            }

            html.Append("</ul>\n");
        }

        StainRecipe stain = decided.Stain;
        html.Append(!stain.Helps
            ? "<h2>Stain</h2>\n<p>No stain brings it nearer.</p>\n"
            : Text($"<h2>Stain</h2>\n<p>{Escape(string.Join(", ", stain.Parts))} (share of the full load) in {Escape(caseFile.StainLayer.Carrier.Name)}, {1000 * caseFile.StainLayer.AppliedThicknessMm:0} µm as applied: the largest difference of {stain.WorstWithout:0.0} without becomes {stain.WorstWith:0.0}.</p>\n"));
        html.Append("<h2>How sure this is</h2>\n").Append(Tornado(decided.Uncertainty)).Append('\n');
        html.Append(Text($"<p>To hide the stump in zone {Escape(best.Limiting.Zone.Name)}, wall thickness: {Escape(decided.Masking.Minimum.ToString())}.</p>\n"));
        html.Append("<section class=\"caution\"><h2>Cautions</h2>\n<ul>\n");
        foreach (Caution caution in decided.Cautions)
        {
            html.Append(Text($"<li>{Escape(caution.Text)}</li>\n"));
        }

        html.Append("</ul></section>\n</body>\n</html>\n");
        File.WriteAllText(path, html.ToString());
    }

    private static string Ranking(WholeCase decided)
    {
        StringBuilder html = new("<h2>The choices</h2>\n<table>\n<caption>Best first, by the zone with the largest difference (CIEDE2000) under all lights.</caption>\n<thead><tr><th>Choice</th><th class=\"n\">worst</th><th class=\"n\">mean</th><th>Where and what</th></tr></thead>\n<tbody>\n");
        foreach (MatchCandidate candidate in decided.Ranking.Candidates.Take(6).Union([decided.Chosen]))
        {
            ZoneMatch limiting = candidate.Limiting;
            html.Append(Text($"<tr><td>{Escape(candidate.ToString())}</td><td class=\"n\">{candidate.WorstDifference:0.0} {(candidate.Meets ? "✓" : "✗")}</td><td class=\"n\">{candidate.MeanDifference:0.0}</td><td>{Escape(limiting.Zone.Name)}, {Escape(limiting.AtWall.Colorimeter.Name)}: {Escape(limiting.AtWall.Shift.ToString())}</td></tr>\n"));
        }

        return html.Append("</tbody></table>\n<p class=\"note\">✓ within the limit in every zone, ✗ not.</p>\n").ToString();
    }

    // The target above, the prediction below, edge to edge: a difference shows at the seam.
    private static string Swatches(CaseFile caseFile, WholeCase decided)
    {
        IReadOnlyList<ZoneMatch> zones = decided.Chosen.Zones;
        int step = 640 / zones.Count;
        StringBuilder svg = new(Text($"<svg viewBox=\"0 0 640 210\" width=\"640\" role=\"img\" aria-label=\"Target and predicted colour of each zone\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"14\">\n"));
        for (int i = 0; i < zones.Count; i++)
        {
            Lab color = Colorimeter.D65TwoDegree.ToLab(decided.Chosen.Restoration.StackOver(zones[i].Zone.Stump, zones[i].WallMm).Reflectance());
            int x = i * step;
            svg.Append(Text($"<rect x=\"{x}\" y=\"24\" width=\"{step - 12}\" height=\"64\" fill=\"{Hex(caseFile.TargetColor)}\"/><rect x=\"{x}\" y=\"88\" width=\"{step - 12}\" height=\"64\" fill=\"{Hex(color)}\"/>\n"));
            svg.Append(Text($"<text x=\"{x}\" y=\"16\">{Escape(caseFile.TargetName)}</text><text x=\"{x}\" y=\"172\">{Escape(zones[i].Zone.Name)}, {zones[i].WallMm:0.00} mm</text><text x=\"{x}\" y=\"192\">difference {zones[i].Difference:0.0}</text>\n"));
        }

        return svg.Append("</svg>\n<p class=\"note\">Above the target, below the prediction, in daylight D65. A screen or printer shows colours only roughly.</p>").ToString();
    }

    private static string Pair(FeasibilityResult wish) => Text(
        $"<svg viewBox=\"0 0 640 100\" width=\"640\" role=\"img\" aria-label=\"The wish and the nearest colour that can be made\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"14\"><rect x=\"0.5\" y=\"0.5\" width=\"200\" height=\"70\" fill=\"{wish.WishSwatch.ToHex()}\" stroke=\"#666\"/><rect x=\"200.5\" y=\"0.5\" width=\"200\" height=\"70\" fill=\"{(wish.NearestSwatch ?? wish.WishSwatch).ToHex()}\" stroke=\"#666\"/><text x=\"0\" y=\"90\">the wish</text><text x=\"200\" y=\"90\">nearest that can be made</text></svg>");

    // What each uncertain input does to the difference, one standard uncertainty down and up.
    private static string Tornado(ZonePrediction uncertainty)
    {
        Contribution[] bars = [.. uncertainty.Contributions.Take(6)];
        double low = bars.Min(bar => Math.Min(bar.DifferenceLow, bar.DifferenceHigh)), high = bars.Max(bar => Math.Max(bar.DifferenceLow, bar.DifferenceHigh));
        double Position(double difference) => 330 + (270 * (difference - low) / Math.Max(high - low, 1e-9));
        StringBuilder svg = new(Text($"<p>Predicted difference {uncertainty.Difference:0.0} ± {uncertainty.StandardUncertainty:0.0} in the limiting zone; 95 % of crowns made like this lie between {uncertainty.Interval95.Low:0.0} and {uncertainty.Interval95.High:0.0}. What matters most:</p>\n"));
        svg.Append(Text($"<svg viewBox=\"0 0 640 {(26 * bars.Length) + 24}\" width=\"640\" role=\"img\" aria-label=\"Effect of each uncertain input on the difference\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"13\">\n"));
        for (int i = 0; i < bars.Length; i++)
        {
            double from = Position(Math.Min(bars[i].DifferenceLow, bars[i].DifferenceHigh)), to = Position(Math.Max(bars[i].DifferenceLow, bars[i].DifferenceHigh));
            svg.Append(Text($"<text x=\"0\" y=\"{(26 * i) + 17}\">{Escape(Short(bars[i].ToString()))}</text><rect x=\"{from:0.0}\" y=\"{(26 * i) + 4}\" width=\"{Math.Max(2, to - from):0.0}\" height=\"18\" fill=\"#0072b2\"/>\n"));
        }

        double middle = Position(uncertainty.Difference), bottom = (26 * bars.Length) + 2;
        svg.Append(Text($"<line x1=\"{middle:0.0}\" x2=\"{middle:0.0}\" y1=\"0\" y2=\"{bottom}\" stroke=\"#d55e00\" stroke-width=\"2\"/><text x=\"330\" y=\"{bottom + 18}\">{low:0.00}</text><text x=\"600\" y=\"{bottom + 18}\" text-anchor=\"end\">{high:0.00}</text>"));
        return svg.Append(Text($"</svg>\n<p class=\"note\">Bars: the difference when one input is one standard uncertainty lower or higher; line: as predicted. {uncertainty.Samples} samples.</p>")).ToString();
    }

    private static string Short(string input) => input.Length > 42 ? input[..41] + "…" : input;

    private static string Hex(Lab color) => Srgb.FromLabReducingChroma(color).ToHex();

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Escape(string text) => WebUtility.HtmlEncode(text);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
