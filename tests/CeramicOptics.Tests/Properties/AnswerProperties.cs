using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>No answer misleads in words, whatever the restoration.</summary>
public class AnswerProperties
{
    /// <summary>
    /// A wall is suggested only where it fits, with margin and probability; one that does not fit says so first and by
    /// how much; no probability is 0 or 1.
    /// </summary>
    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void A_wall_is_suggested_only_where_it_fits_and_with_its_margin_and_probability(
        CeramicInput ceramic, StumpInput stump, Fraction strength, Fraction available)
    {
        WallData data = WallData.Coarse("two-flux");
        Zone zone = new(
            "zone", data.Stump("stump", stump.Blue, stump.Red), 0.5 + (2 * available.Value),
            MaskingReference.SelfBacked);
        Material material = data.Make("ceramic", ceramic.KFloor, ceramic.KBlue, 3 * ceramic.S550, ceramic.Index);
        Ceramic core = new("family", 1, material)
        {
            Strength = strength.Value < 0.2 ? StrengthLimit.NotGiven : StrengthLimit.Of(0.1 + (2 * strength.Value)),
        };
        GradeRanking ranking = GradeChoice.Find(
            data.Crown(zone).WithCore(core), [core], new MaskingOptions { Samples = 256 });
        ZoneMasking masking = ranking.Assessments[0].Masking.Zones[0];
        MinimumThickness minimum = masking.Minimum;
        double needed = (minimum.StructuralMm is null ? minimum.ReliableMm : minimum.RecommendedMm) ?? 0;
        bool fits = needed <= zone.AvailableMm + 1e-9;
        foreach (Language language in Language.All)
        {
            bool english = language == Language.English;
            string text = masking.ToString(language);
            string suggested = english ? "suggested for review" : "zur Prüfung vorgeschlagen";
            Assert.Equal(
                fits && minimum.RecommendedMm is not null,
                text.Contains($"mm {suggested}", StringComparison.Ordinal));
            Assert.Equal(!fits, text.StartsWith(
                english ? "zone: does not fit, " : "zone: passt nicht, ", StringComparison.Ordinal));
            Assert.Equal(!fits, ranking.ToString(language).Contains(
                english ? "mm too little room" : "mm zu wenig Platz", StringComparison.Ordinal));
            if (!fits)
            {
                double lacking = double.Parse(Regex.Match(text, @"\d[\d.,]*").Value, language);
                Assert.InRange(lacking, needed - zone.AvailableMm - 1e-9, needed - zone.AvailableMm + 0.01);
            }

            string chance = masking.MasksAtAvailable.ToString(language);
            Assert.Contains(chance, text, StringComparison.Ordinal);
            Assert.Equal(
                fits && minimum.RecommendedMm is not null,
                Regex.IsMatch(text, english ? @"margin \+?\d" : @"Reserve \+?\d"));
            double shown = double.Parse(Regex.Match(chance, @"\d[\d.,]*").Value, language);
            Assert.InRange(shown, 0.001, 0.999);
            Assert.True(shown <= masking.MasksAtAvailable.Value || masking.MasksAtAvailable.Value < 0.05);
        }

        // The same in JSON, and a ceramic is suggested only where it is reliable.
        JsonElement json = ResultDocument.Of(ranking).Content;
        JsonElement read = json.GetProperty("assessments")[0].GetProperty("zones")[0];
        Assert.Equal(masking.ToString(), read.GetProperty("sentence").GetString());
        Assert.Equal(
            masking.MasksAtAvailable.ToString(),
            read.GetProperty("masksAtAvailable").GetProperty("inWords").GetString());
        Assert.Equal(ranking.Suggested is null, json.GetProperty("suggestion").ValueKind == JsonValueKind.Null);
        Assert.True(ranking.Suggested is null || (fits && masking.MasksAtAvailable.Value >= minimum.Share - 0.01));
        Assert.Equal(
            ranking.Suggested is not null,
            json.GetProperty("suggestion").ValueKind == JsonValueKind.String
                && Regex.IsMatch(
                    json.GetProperty("suggestion").GetString()!,
                    @"smallest margin \+?\d.*smallest probability "));
    }
}
