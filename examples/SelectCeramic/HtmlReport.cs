using System.Net;
using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using static System.FormattableString;

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
        @page { size: A4; margin: 9mm 14mm; }
        @media print {
          html { font-size: 7.6pt; } body { font-size: 7.6pt; line-height: 1.16; margin: 0; padding: 0; max-width: none; } h1 { font-size: 13pt; } h2 { font-size: 9.5pt; margin: .6rem 0 .15rem; }
          p { margin: .2rem 0; } th, td { padding: .1rem .4rem; } ul { margin: .2rem 0; } svg { width: 30%; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
          .answer { background: none; padding: .1rem .6rem; } .caution { padding: .1rem .6rem; } tr, section { break-inside: avoid; }
        }
        """;

    public static void Save(string path, CaseFile caseFile, WholeCase decided, PageWords words)
    {
        string Say(string format, params object[] values) => Escape(string.Format(words.Language, format, values));
        string In(IFormattable answer) => Escape(answer.ToString(null, words.Language));
        MatchCandidate best = decided.Chosen;
        ZonePrediction sure = decided.Uncertainty;
        StringBuilder html = new();
        html.Append($"<!DOCTYPE html>\n<html lang=\"{words.Language.Name}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{Escape(caseFile.Name)}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n");
        html.Append($"<h1>{Escape(Capital(caseFile.Name))}</h1>\n<p class=\"note\">{Say(words.Predicted)}{(caseFile.IsInvented ? " " + Say(words.Invented) : "")}</p>\n");
        string claim = decided.IsReliable ? words.Reliable : best.Meets ? words.Unreliable : words.Nearest;
        bool hides = decided.Masking.IsReliable;
        ZoneMasking least = decided.LeastHidden;
        string hiding = hides
            ? $"<p>{Say(words.Hidden, Name(least.Zone), least.Zone.AvailableMm, least.MasksAtAvailable.ToString(words.Language), least.Minimum.ToString(words.Language))}{(least.MarginMm is double marginMm ? " " + Say(words.HiddenMargin, -MinimumThickness.RoundedUp(-marginMm)) : "")}</p>\n"
            : $"<p>{Say(words.ToHide, least.ToString(words.Language))}</p>\n";
        string half = caseFile.Criterion.Limit < 1 ? words.HalfNotSee : words.HalfAccept;
        html.Append($"<section class=\"answer\">{(hides ? "" : hiding)}<p>{Say(decided.IsReliable ? words.Suggested : words.NotSuggested)} <strong>{In(best)}</strong>. {Say(claim, caseFile.TargetName)} {Say(words.Largest, Name(best.Limiting.Zone), best.WorstDifference, caseFile.Criterion.Limit, Criterion(), half, sure.Meets.ToString(words.Language), caseFile.Criterion.Limit - best.WorstDifference)}</p></section>\n");
        html.Append($"<h2>{Say(words.Look)}</h2>\n").Append(CrownDrawing.Draw(caseFile, best, words)).Append(Swatches(caseFile, decided, words));
        html.Append($"<h2>{Say(words.Reach)}</h2>\n<p>{In(decided.Feasibility)}</p>\n");
        if (decided.Wish is not null)
        {
            html.Append($"<p><strong>{Say(words.Wish, caseFile.Wish!.Name)}</strong> {In(decided.Wish)}</p>\n").Append(Pair(decided.Wish, words)).Append('\n');
        }

        html.Append(Ranking(decided, words));
        if (decided.Remedies.Remedies.Count > 0)
        {
            html.Append($"<h2>{Say(words.Nearer)}</h2>\n<ul>\n");
            foreach (Remedy remedy in decided.Remedies.Remedies.Take(4))
            {
                html.Append($"<li>{Capital(In(remedy))}.</li>\n");
            }

            html.Append("</ul>\n");
        }

        StainRecipe stain = decided.Stain;
        string parts = string.Join(", ", stain.Parts.Select(part => part.ToString(words.Language)));
        string stained = stain.Helps
            ? Say(words.StainHelps, parts, caseFile.StainLayer.Carrier.Name, 1000 * caseFile.StainLayer.AppliedThicknessMm, stain.WorstWithout, stain.WorstWith)
            : Say(words.NoStain);
        html.Append($"<h2>{Say(words.Stain)}</h2>\n<p>{stained}</p>\n");
        html.Append($"<h2>{Say(words.HowSure)}</h2>\n").Append(Tornado(decided.Uncertainty, words)).Append('\n');
        html.Append(hides ? hiding : "");
        html.Append($"<section class=\"caution\"><h2>{Say(words.Cautions)}</h2>\n<ul>\n");
        foreach (Caution caution in decided.Cautions)
        {
            html.Append($"<li>{In(caution)}</li>\n");
        }

        html.Append("</ul></section>\n</body>\n</html>\n");
        File.WriteAllText(path, html.ToString());

        string Name(Zone zone) => zone.ToString(words.Language);
        string Criterion() => caseFile.Criterion.ToString(words.Language);
    }

    private static string Ranking(WholeCase decided, PageWords words)
    {
        StringBuilder html = new($"<h2>{words.Choices}</h2>\n<table>\n<caption>{words.ChoicesCaption}</caption>\n<thead><tr><th>{words.Choice}</th><th class=\"n\">{words.Worst}</th><th class=\"n\">{words.Mean}</th><th>{words.WhereAndWhat}</th></tr></thead>\n<tbody>\n");
        foreach (MatchCandidate candidate in decided.Ranking.Candidates.Take(6).Union([decided.Chosen]))
        {
            ZoneMatch limiting = candidate.Limiting;
            html.Append(string.Create(words.Language, $"<tr><td>{Escape(candidate.ToString(words.Language))}</td><td class=\"n\">{candidate.WorstDifference:0.0} {(candidate.Meets ? "✓" : "✗")}</td><td class=\"n\">{candidate.MeanDifference:0.0}</td><td>{Escape(limiting.Zone.ToString(words.Language))}, {Escape(limiting.AtWall.Colorimeter.ToString(words.Language))}: {Escape(limiting.AtWall.Shift.ToString(words.Language))}</td></tr>\n"));
        }

        return html.Append($"</tbody></table>\n<p class=\"note\">{words.ChoicesNote}</p>\n").ToString();
    }

    // Target and prediction edge to edge: a difference shows at the seam.
    private static string Swatches(CaseFile caseFile, WholeCase decided, PageWords words)
    {
        IReadOnlyList<ZoneMatch> zones = decided.Chosen.Zones;
        StringBuilder svg = new($"<svg viewBox=\"0 0 640 {34 * zones.Count}\" width=\"640\" role=\"img\" aria-label=\"{Escape(words.SwatchNote)}\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"14\">\n");
        for (int i = 0; i < zones.Count; i++)
        {
            Lab color = Colorimeter.D65TwoDegree.ToLab(decided.Chosen.Restoration.StackOver(zones[i].Zone.Stump, zones[i].WallMm).Reflectance());
            int y = 34 * i;
            string text = string.Format(words.Language, words.Zone, zones[i].Zone.ToString(words.Language), MinimumThickness.RoundedUp(zones[i].WallMm).ToString("0.00", words.Language), zones[i].Difference);
            svg.Append($"<rect x=\"0\" y=\"{y}\" width=\"110\" height=\"30\" fill=\"{Hex(caseFile.TargetColor)}\"/><rect x=\"110\" y=\"{y}\" width=\"110\" height=\"30\" fill=\"{Hex(color)}\"/><text x=\"232\" y=\"{y + 20}\">{Escape(text)}</text>\n");
        }

        return svg.Append($"</svg>\n<p class=\"note\">{words.SwatchNote}</p>\n").ToString();
    }

    private static string Pair(FeasibilityResult wish, PageWords words) =>
        $"<svg viewBox=\"0 0 640 100\" width=\"640\" role=\"img\" aria-label=\"{words.NearestSwatch}\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"14\"><rect x=\"0.5\" y=\"0.5\" width=\"200\" height=\"70\" fill=\"{wish.WishSwatch.ToHex()}\" stroke=\"#666\"/><rect x=\"200.5\" y=\"0.5\" width=\"200\" height=\"70\" fill=\"{(wish.NearestSwatch ?? wish.WishSwatch).ToHex()}\" stroke=\"#666\"/><text x=\"0\" y=\"90\">{words.WishSwatch}</text><text x=\"200\" y=\"90\">{words.NearestSwatch}</text></svg>";

    // What each uncertain input does to the difference, one standard uncertainty down and up.
    private static string Tornado(ZonePrediction uncertainty, PageWords words)
    {
        Contribution[] bars = [.. uncertainty.Contributions.Take(6)];
        double low = bars.Min(bar => Math.Min(bar.DifferenceLow, bar.DifferenceHigh)), high = bars.Max(bar => Math.Max(bar.DifferenceLow, bar.DifferenceHigh));
        double Position(double difference) => 330 + (270 * (difference - low) / Math.Max(high - low, 1e-9));
        string interval = string.Format(words.Language, words.Interval, uncertainty.Difference, uncertainty.StandardUncertainty, uncertainty.Interval95.Low, uncertainty.Interval95.High);
        StringBuilder svg = new($"<p>{Escape(interval)}</p>\n<svg viewBox=\"0 0 640 {(26 * bars.Length) + 24}\" width=\"640\" role=\"img\" aria-label=\"{Escape(words.HowSure)}\" font-family=\"DejaVu Sans, Verdana, sans-serif\" font-size=\"13\">\n");
        for (int i = 0; i < bars.Length; i++)
        {
            double from = Position(Math.Min(bars[i].DifferenceLow, bars[i].DifferenceHigh)), to = Position(Math.Max(bars[i].DifferenceLow, bars[i].DifferenceHigh));
            svg.Append(Invariant($"<text x=\"0\" y=\"{(26 * i) + 17}\">{Escape(Short(bars[i].ToString(words.Language)))}</text><rect x=\"{from:0.0}\" y=\"{(26 * i) + 4}\" width=\"{Math.Max(2, to - from):0.0}\" height=\"18\" fill=\"#0072b2\"/>\n"));
        }

        double middle = Position(uncertainty.Difference), bottom = (26 * bars.Length) + 2;
        svg.Append(Invariant($"<line x1=\"{middle:0.0}\" x2=\"{middle:0.0}\" y1=\"0\" y2=\"{bottom}\" stroke=\"#d55e00\" stroke-width=\"2\"/>"));
        svg.Append(string.Create(words.Language, $"<text x=\"330\" y=\"{(int)bottom + 18}\">{low:0.00}</text><text x=\"600\" y=\"{(int)bottom + 18}\" text-anchor=\"end\">{high:0.00}</text></svg>\n"));
        return svg.Append($"<p class=\"note\">{Escape(string.Format(words.Language, words.Bars, uncertainty.Meets.Samples))}</p>").ToString();
    }

    private static string Short(string input) => input.Length > 42 ? input[..41] + "…" : input;

    private static string Hex(Lab color) => Srgb.FromLabReducingChroma(color).ToHex();

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    public static string Escape(string text) => WebUtility.HtmlEncode(text);
}
