using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>What would mend the limiting zone of a candidate.</summary>
public static class Remedies
{
    private const double StepMm = 0.01, WorthTelling = 0.1;

    /// <summary>Changes that help by at least 0.1, those that meet the criterion first, then by what remains.</summary>
    /// <param name="candidate">The candidate.</param>
    /// <param name="restoration">The case it was made for; walls up to the largest thickness of its range are tried.</param>
    /// <param name="options">What there was to choose from; other grades and cements come from here.</param>
    /// <param name="liner">Substance of an opaque liner; null where there is none.</param>
    /// <param name="buildUp">What the stump would be with a build-up; null where there is none.</param>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    public static IReadOnlyList<Remedy> For(
        MatchCandidate candidate, RestorationCase restoration, MatchOptions options, Material? liner = null, Substrate? buildUp = null)
    {
        Guard.NotNull(candidate);
        Guard.NotNull(restoration);
        Guard.NotNull(options);
        BoundaryCache boundaries = new();
        ZoneMatch limiting = candidate.Limiting;
        double limit = restoration.Criterion.Limit;
        List<Remedy> remedies = [];

        // The difference of one zone by the thickness of its wall, all else compiled.
        Func<double, double> DifferenceOf(WallDesign design, ZoneMatch zone, Layer cement, Substrate substrate)
        {
            int core = restoration.LayersAbove.Count;
            LayerStack stack = new([.. restoration.LayersAbove, .. design.Layers(zone.WallMm), .. restoration.LayersBelow, cement], substrate, restoration.Coupling);
            StackJudge judge = new(stack, core, zone.Zone.Reference, restoration.Criterion, restoration.Conditions, boundaries);
            double[] layersMm = judge.ThicknessesMm;
            return wallMm =>
            {
                design.SetThicknesses(layersMm, core, wallMm);
                return judge.Worst(layersMm, wallMm).Difference;
            };
        }

        void Add(RemedyKind kind, double before, double after, FormattableString text, params Caution[] cautions)
        {
            if (after < before - WorthTelling)
            {
                string outcome = FormattableString.Invariant($"{FormattableString.Invariant(text)}: difference {before:0.0} becomes {after:0.0}");
                remedies.Add(new Remedy(kind, outcome, after, after <= limit, cautions));
            }
        }

        double was = limiting.Worst.Difference, structural = (restoration.Conditions.StructuralMinimumMm ?? 0) / (1 - candidate.VeneerShare);
        double from = Math.Max(restoration.RangeMm.Min, structural);
        if (from <= restoration.RangeMm.Max)
        {
            Func<double, double> differenceAt = DifferenceOf(candidate.Design, limiting, limiting.Cement, limiting.Zone.Substrate);
            (double Wall, double After) best = MatchEvaluator.Thicknesses(from, restoration.RangeMm.Max, StepMm)
                .Select(wall => (Wall: wall, After: differenceAt(wall)))
                .OrderBy(item => item.After > limit ? item.After : 0)
                .ThenBy(item => Math.Abs(item.Wall - limiting.WallMm))
                .First();
            bool thicker = best.Wall > limiting.WallMm;
            Add(
                RemedyKind.Thickness, was, best.After,
                $"a wall {Math.Abs(best.Wall - limiting.WallMm):0.00} mm {(thicker ? "thicker" : "thinner")} in zone '{limiting.Zone.Name}' ({best.Wall:0.00} mm)",
                thicker ? [Caution.Strength, Caution.ToothReduction] : [Caution.Strength]);
        }

        foreach (Ceramic other in options.Ceramics.Where(other => other.Family == candidate.Ceramic.Family && other.Grade != candidate.Ceramic.Grade))
        {
            WallDesign with = candidate.Design with { Ceramic = other };
            Add(
                RemedyKind.Grade, candidate.WorstDifference, candidate.Zones.Max(zone => DifferenceOf(with, zone, zone.Cement, zone.Zone.Substrate)(zone.WallMm)),
                $"grade {other.Grade} in place of grade {candidate.Ceramic.Grade}");
        }

        foreach (Layer cement in options.Cements.Where(cement => cement != limiting.Cement))
        {
            Add(
                RemedyKind.Cement, was, DifferenceOf(candidate.Design, limiting, cement, limiting.Zone.Substrate)(limiting.WallMm),
                $"{cement.Material} in zone '{limiting.Zone.Name}'");
        }

        if (buildUp is not null)
        {
            Add(
                RemedyKind.StumpBuildUp, was, DifferenceOf(candidate.Design, limiting, limiting.Cement, buildUp)(limiting.WallMm),
                $"{buildUp} over the stump in zone '{limiting.Zone.Name}'", Caution.ToothReduction);
        }

        if (liner is not null && candidate.Veneer is null)
        {
            RestorationCase there = restoration.WithZones(candidate.Zones.Select(zone =>
                new Zone(zone.Zone.Name, zone.Zone.Substrate, zone.WallMm, zone.Zone.Reference))) with
                { LayersBelow = [.. restoration.LayersBelow, limiting.Cement] };
            if (there.Zones.Min(zone => zone.AvailableThicknessMm) > Math.Max(restoration.Conditions.StructuralMinimumMm ?? 0, 1e-3) + StepMm)
            {
                BlockingLinerResult blocked = BlockingLiner.Find(there, candidate.Ceramic, liner);
                Add(
                    RemedyKind.BlockingLiner, candidate.WorstDifference, blocked.WorstDifference,
                    $"{blocked.ThicknessMm ?? blocked.BestMm:0.000} mm of {liner} under the ceramic (translucency TP00 {blocked.TranslucencyWithout:0.0} becomes {blocked.TranslucencyWith:0.0})",
                    Caution.Strength);
            }
        }

        return Guard.Copy(remedies.OrderByDescending(remedy => remedy.Meets).ThenBy(remedy => remedy.DifferenceAfter));
    }
}
