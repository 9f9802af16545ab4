using System.Net;
using System.Text;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>
/// One page for dentist and patient: HTML with drawings inside, nothing loaded from elsewhere, made to be printed.
/// </summary>
internal sealed class HtmlReport
{
    private readonly StringBuilder _html = new();
    private readonly CaseFile _case;
    private readonly WholeCase _decided;
    private readonly PageWords _words;

    private HtmlReport(CaseFile caseFile, WholeCase decided, PageWords words) =>
        (_case, _decided, _words) = (caseFile, decided, words);

    public static void Save(string path, CaseFile caseFile, WholeCase decided, PageWords words)
    {
        HtmlReport report = new(caseFile, decided, words);
        report.Page();
        File.WriteAllText(path, report._html.ToString());
    }

    public static string Escape(string text) => WebUtility.HtmlEncode(text);

    private void Page()
    {
        string name = Escape(_case.Name), invented = _case.IsInvented ? " " + Say(_words.Invented) : "";
        Line($"<!DOCTYPE html>\n<html lang=\"{_words.Language.Name}\">\n<head>\n<meta charset=\"utf-8\">");
        Line("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
        Line($"<title>{name}</title>\n<style>\n{PageStyle.Css}\n</style>\n</head>\n<body>");
        Line($"<h1>{Capital(name)}</h1>\n<p class=\"note\">{Say(_words.Predicted)}{invented}</p>");
        Answer();
        Line($"<h2>{Say(_words.Look)}</h2>\n<div class=\"side\"><div>");
        _html.Append(CrownDrawing.Draw(_case, _decided.Chosen, _words));
        Line($"</div><div>\n<p class=\"note\">{Say(_words.LookNote)}</p>");
        _html.Append(PageDrawings.Swatches(_case, _decided, _words)).Append("</div></div>\n");
        Reach();
        Ranking();
        Changes();
        Sureness();
        Line($"<section class=\"caution\"><h2>{Say(_words.Cautions)}</h2>\n<ul>");
        foreach (Caution caution in _decided.Cautions)
        {
            Line($"<li>{Escape(In(caution))}</li>");
        }

        Line("</ul></section>\n</body>\n</html>");
    }

    private void Answer()
    {
        MatchCandidate best = _decided.Chosen;
        string claim = _decided.IsReliable ? _words.Reliable : best.Meets ? _words.Unreliable : _words.Nearest;
        string half = _case.Criterion.Limit < 1 ? _words.HalfNotSee : _words.HalfAccept;
        string largest = Say(
            _words.Largest, In(best.Limiting.Zone), best.WorstDifference, _case.Criterion.Limit, In(_case.Criterion),
            half, In(_decided.Uncertainty.Meets), _case.Criterion.Limit - best.WorstDifference);
        string suggested = Say(_decided.IsReliable ? _words.Suggested : _words.NotSuggested);
        Line(
            $"<section class=\"answer\">{(_decided.Masking.IsReliable ? "" : Hiding())}<p>{suggested} "
                + $"<strong>{Escape(In(best))}</strong>. {Say(claim, _case.TargetName)} {largest}</p></section>");
    }

    private string Hiding()
    {
        ZoneMasking least = _decided.LeastHidden;
        if (!_decided.Masking.IsReliable)
        {
            return $"<p>{Say(_words.ToHide, In(least))}</p>\n";
        }

        string margin = least.MarginMm is double marginMm
            ? " " + Say(_words.HiddenMargin, -MinimumThickness.RoundedUp(-marginMm))
            : "";
        string hidden = Say(
            _words.Hidden, In(least.Zone), least.Zone.AvailableMm, In(least.MasksAtAvailable), In(least.Minimum));
        return $"<p>{hidden}{margin}</p>\n";
    }

    private void Reach()
    {
        Line($"<h2>{Say(_words.Reach)}</h2>\n<p>{Escape(In(_decided.Feasibility))}</p>");
        if (_decided.Wish is not null)
        {
            Line(
                $"<div class=\"side\"><p class=\"more\"><strong>{Say(_words.Wish, _case.Wish!.Name)}</strong> "
                    + $"{Escape(In(_decided.Wish))}</p>\n<div>{PageDrawings.Wish(_decided.Wish, _words)}</div></div>");
        }
    }

    private void Ranking()
    {
        Line($"<h2>{_words.Choices}</h2>\n<table>\n<caption>{_words.ChoicesCaption}</caption>");
        Line(
            $"<thead><tr><th>{_words.Choice}</th><th class=\"n\">{_words.Worst}</th><th class=\"n\">{_words.Mean}</th>"
                + $"<th>{_words.WhereAndWhat}</th></tr></thead>\n<tbody>");
        foreach (MatchCandidate candidate in _decided.Ranking.Candidates.Take(6).Union([_decided.Chosen]))
        {
            ZoneMatch limiting = candidate.Limiting;
            string where = $"{In(limiting.Zone)}, {In(limiting.AtWall.Colorimeter)}: {In(limiting.AtWall.Shift)}";
            string worst = $"{Number(candidate.WorstDifference)} {(candidate.Meets ? "✓" : "✗")}";
            Line(
                $"<tr><td>{Escape(In(candidate))}</td><td class=\"n\">{worst}</td>"
                    + $"<td class=\"n\">{Number(candidate.MeanDifference)}</td><td>{Escape(where)}</td></tr>");
        }

        Line($"</tbody></table>\n<p class=\"note\">{_words.ChoicesNote}</p>");
    }

    private void Changes()
    {
        if (_decided.Remedies.Remedies.Count > 0)
        {
            Line($"<h2>{Say(_words.Nearer)}</h2>\n<ul>");
            foreach (Remedy remedy in _decided.Remedies.Remedies.Take(4))
            {
                Line($"<li>{Capital(Escape(In(remedy)))}.</li>");
            }

            Line("</ul>");
        }

        StainRecipe stain = _decided.Stain;
        string parts = string.Join(", ", stain.Parts.Select(In));
        string stained = stain.Helps
            ? Say(
                _words.StainHelps, parts, _case.StainLayer.Carrier.Name, 1000 * _case.StainLayer.AppliedThicknessMm,
                stain.WorstWithout, stain.WorstWith)
            : Say(_words.NoStain);
        Line($"<h2>{Say(_words.Stain)}</h2>\n<p>{stained}</p>");
    }

    private void Sureness()
    {
        ZonePrediction sure = _decided.Uncertainty;
        string interval = Say(
            _words.Interval, sure.Difference, sure.StandardUncertainty, sure.Interval95.Low, sure.Interval95.High);
        Line($"<h2>{Say(_words.HowSure)}</h2>\n<div class=\"side\"><div class=\"more\">");
        _html.Append(PageDrawings.Tornado(sure, _words));
        Line($"</div><div><p>{interval}</p>\n<p class=\"note\">{Say(_words.Bars, sure.Meets.Samples)}</p></div></div>");
        _html.Append(_decided.Masking.IsReliable ? Hiding() : "");
    }

    private void Line(string html) => _html.Append(html).Append('\n');

    private string Say(string format, params object[] values) =>
        Escape(string.Format(_words.Language, format, values));

    private string In(IFormattable answer) => answer.ToString(null, _words.Language);

    private string Number(double value) => value.ToString("0.0", _words.Language);

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
