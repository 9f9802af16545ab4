using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>All decisions for one case, computed once for console and report.</summary>
internal sealed record WholeCase(
    MatchRanking Ranking,
    MatchCandidate Chosen,
    RemedyResult Remedies,
    StainRecipe Stain,
    ZonePrediction Uncertainty,
    MaskingResult Masking,
    FeasibilityResult Feasibility,
    FeasibilityResult? Wish,
    IReadOnlyList<Caution> Cautions)
{
    private const int Steps = 5, Assessed = 6;

    /// <summary>Share of pieces that shall meet the criterion for a choice to be called reliable.</summary>
    public const double ReliableShare = 0.95;

    private const double NearlyAsSure = 0.03;

    /// <summary>True when the reliable share of pieces meets the criterion; nothing else is suggested.</summary>
    public bool IsReliable => Uncertainty.Meets.Value >= ReliableShare;

    /// <summary>The zone whose stump is hidden with the smallest margin, or is not.</summary>
    public ZoneMasking LeastHidden => Masking.IsReliable
        ? Masking.Zones.MinBy(zone => zone.MarginMm ?? double.NegativeInfinity)!
        : Masking.Limiting;

    public static WholeCase Decide(CaseFile caseFile, MaterialCatalog catalog, IProgress<double> progress)
    {
        Restoration question = caseFile.Matching(catalog.Ceramics[0], caseFile.Cements[0]);
        Layer[] cements = [.. caseFile.Cements.Select(cement => cement.Film)];
        MatchOptions options = new(catalog.Ceramics) { Cements = cements };
        MatchRanking ranking = Match.Find(question, options);

        (MatchCandidate chosen, UncertaintyResult uncertainty) = Choose(ranking);
        Zone limiting = uncertainty.Limiting.Zone, asked = question.Zones.First(zone => zone.Name == limiting.Name);

        // The other questions do not depend on one another.
        int done = 1;
        void Done() => progress.Report(Interlocked.Increment(ref done) / (double)Steps);
        Task<T> Ask<T>(Func<T> question) => Task.Run(() =>
        {
            T answer = question();
            Done();
            return answer;
        });
        Task<StainRecipe> stained = Ask(() => Decisions.Staining.Stain.Find(
            chosen.Restoration,
            new StainOptions(caseFile.StainLayer, caseFile.Stains.Pigments) { MaximumLoad = caseFile.MaximumLoad }));
        Task<RemedyResult> remedied = Ask(() => RemedySearch.Find(
            chosen, new RemedyOptions { Ceramics = catalog.Ceramics, Cements = cements, Liner = caseFile.Liner }));
        Task<MaskingResult> masked = Ask(() => MaskingThickness.Find(
            chosen.Restoration.WithZones(
                chosen.Restoration.Zones.Select(zone => zone.ComparedWith(MaskingReference.SelfBacked)))));
        Task<FeasibilityResult> reached = Ask(() => ReachableColors.Find(question, asked, options));
        FeasibilityResult? wish = caseFile.Wish is null
            ? null
            : ReachableColors.Find(question, asked.ComparedWith(caseFile.Wish), options);
        (StainRecipe stain, RemedyResult remedies, MaskingResult masking, FeasibilityResult feasibility) =
            (Result(stained), Result(remedied), Result(masked), Result(reached));
        Caution[] cautions =
        [
            .. ranking.Cautions, .. remedies.Cautions, .. stain.Cautions, .. uncertainty.Cautions, .. masking.Cautions,
            .. feasibility.Cautions, .. wish?.Cautions ?? [],
        ];
        return new WholeCase(
            ranking, chosen, remedies, stain, uncertainty.Limiting, masking, feasibility, wish,
                [.. cautions.Distinct()]);
    }

    // The answer, or the error that the question met.
    private static T Result<T>(Task<T> task) => task.GetAwaiter().GetResult();

    // The most translucent of the nearest that meets the criterion in the reliable share of pieces; where none does, of
    // those that meet it nearly as often as the most certain.
    private static (MatchCandidate Chosen, UncertaintyResult Uncertainty) Choose(MatchRanking ranking)
    {
        if (ranking.Closest is null)
        {
            throw new InvalidOperationException(
                "No ceramic has room for the wall that strength requires in every zone; give the zones more room.");
        }

        (MatchCandidate Candidate, UncertaintyResult Uncertainty)[] assessed = Concurrently.Each(
            ranking.Candidates.Take(Assessed),
            candidate => (candidate, PredictionUncertainty.Find(candidate.Restoration)));
        double wanted = Math.Min(
            ReliableShare, assessed.Max(item => item.Uncertainty.Limiting.Meets.Value) - NearlyAsSure);
        return assessed.Where(item => item.Uncertainty.Limiting.Meets.Value >= wanted)
            .MaxBy(item => item.Candidate.Translucency);
    }
}
