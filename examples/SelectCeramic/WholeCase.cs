using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Selection;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>All decisions for one case, computed once for console and report.</summary>
internal sealed record WholeCase(
    MatchRanking Ranking,
    IReadOnlyList<Remedy> Remedies,
    StainRecipe Stain,
    UncertaintyResult Uncertainty,
    ToleranceResult Tolerance,
    Realism Realism,
    Realism? Wish)
{
    private const int Steps = 6;

    /// <summary>The most translucent candidate that meets the criterion; the nearest where none does.</summary>
    public MatchCandidate Chosen => ChosenOf(Ranking);

    private static MatchCandidate ChosenOf(MatchRanking ranking) =>
        ranking.Candidates.Where(candidate => candidate.Meets).MaxBy(candidate => candidate.Translucency)
        ?? ranking.Best
        ?? throw new InvalidOperationException("Strength allows none of the ceramics in every zone; give the zones more room.");

    public static WholeCase Decide(CaseFile caseFile, MaterialCatalog catalog, IProgress<double> progress)
    {
        int done = 0;
        void Done() => progress.Report(++done / (double)Steps);

        RestorationCase restoration = caseFile.Matching;
        MatchOptions options = new(catalog.Ceramics, caseFile.Cements.Select(cement => cement.Film));
        MatchRanking ranking = Match.Rank(restoration, options);
        MatchCandidate chosen = ChosenOf(ranking);
        Done();
        IReadOnlyList<Remedy> remedies = Selection.Remedies.For(chosen, restoration, options, caseFile.Liner);
        Done();
        StainRecipe stain = Selection.Stain.Find(
            chosen.Zones.Select(zone => new StainPlace(zone.Zone.Name, zone.Stack, 0, zone.Zone.Reference)),
            caseFile.StainLayer, caseFile.Stains.Pigments, Colorimetry.Differences.ColorCriterion.ImperceptibleMatch, restoration.Conditions);
        Done();
        ZoneMatch limiting = chosen.Limiting;
        UncertaintyResult uncertainty = PredictionUncertainty.Sample(
            limiting.Stack, 0, limiting.Zone.Reference, restoration.Criterion, caseFile.Uncertainty, restoration.Conditions);
        Done();
        ToleranceResult tolerance = ToleranceThickness.Find(
            limiting.Stack, 0, restoration.RangeMm, MaskingReference.SelfBacked, restoration.Criterion, caseFile.Uncertainty, restoration.Conditions);
        Done();
        Zone darkest = limiting.Zone;
        Realism realism = ReachableColors.Find(restoration, darkest, options);
        Realism? wish = caseFile.Wish is null ? null : ReachableColors.Find(
            restoration, new Zone(darkest.Name, darkest.Substrate, darkest.AvailableThicknessMm, caseFile.Wish), options);
        Done();
        return new WholeCase(ranking, remedies, stain, uncertainty, tolerance, realism, wish);
    }
}
