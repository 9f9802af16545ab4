using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Feasibility;

/// <summary>The range of colours that can be made over the stump of one zone, and what is nearest to a wish.</summary>
public static class ReachableColors
{
    private const double RefinementMm = 1e-4;

    /// <summary>Tries every ceramic, veneer, share, cement and wall thickness.</summary>
    /// <param name="restoration">The restoration; walls from the thinnest of the zone, or else from the start of its
    /// range, to the available thickness are tried, none below the structural minimum.</param>
    /// <param name="zone">The zone, one of the restoration's or another; its reference is a target, which is the
    /// wish.</param>
    /// <param name="options">The choices; <see cref="MatchOptions.Keep"/> does not count here.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, after each combination.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>All colours tried, and the nearest to the wish, between steps to 0.0001 mm; without a nearest where
    /// strength leaves the zone no room.</returns>
    /// <exception cref="ArgumentException">The zone's reference is not a target or was read in another geometry,
    /// nothing is allowed, or grids or models differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The zone's available thickness is outside the range of the
    /// wall.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static FeasibilityResult Find(
        Restoration restoration, Zone zone, MatchOptions options,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Restoration single = Guard.NotNull(restoration).WithZones([Guard.NotNull(zone)]);
        DecisionGuard.RequireTargets(single);
        IReadOnlyList<Restoration> choices = Guard.NotNull(options).ChoicesOf(single);
        List<ReachablePoint> points = [];
        ReachablePoint? nearest = null;
        LimitingCase? limiting = null;
        int tooThin = 0;
        for (int k = 0; k < choices.Count; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            double[] walls = CompiledMatch.WallsFrom(
                choices[k], zone, zone.ThinnestMm ?? restoration.WallRange.MinMm, zone.AvailableMm,
                options.ThicknessStepMm);
            if (walls.Length == 0)
            {
                tooThin++;
            }
            else
            {
                ZoneComparison compared = new(new CompiledWall(choices[k], cancellation), zone);
                ReachablePoint[] made = [.. walls.Select(wallMm => PointAt(compared, wallMm))];
                points.AddRange(made);
                ReachablePoint best = Refine(compared, made);
                if (nearest is null || best.Difference < nearest.Difference)
                {
                    (nearest, limiting) = (best, compared.At(best.WallMm));
                }
            }

            progress?.Report((k + 1.0) / choices.Count);
        }

        double?[] minima = [.. choices.Select(choice => choice.StructuralMinimumMm(zone))];
        double? structural = Array.Exists(minima, minimum => minimum is null) ? null : minima.Min();
        IReadOnlyList<Caution> cautions = DecisionCautions.Of(choices, nearest is null ? 0 : tooThin);
        if (nearest is null)
        {
            cautions =
                Guard.Copy(cautions.Append(new Caution(CautionKind.BelowStructuralMinimum, zone.Name, structural)));
        }

        Lab wish = ((Target)zone.Reference).ColorsUnder(
            restoration.Viewing.Colorimeters, choices[0].Core.Material.Grid, restoration.Viewing.Geometry)[0];
        return new FeasibilityResult(
            single, zone, wish, nearest, limiting, structural, Guard.Copy(points), tooThin, cautions, cancellation);
    }

    private static ReachablePoint PointAt(ZoneComparison compared, double wallMm)
    {
        Span<Lab> colors = stackalloc Lab[compared.Lights], references = stackalloc Lab[compared.Lights];
        compared.Evaluate(wallMm, colors, references);
        return new ReachablePoint(compared.Wall.Restoration, wallMm, colors[0],
            ZoneComparison.Largest(compared.Criterion, references, colors, out _));
    }

    // Golden-section search between the neighbours of the best thickness tried.
    private static ReachablePoint Refine(ZoneComparison compared, ReachablePoint[] tried)
    {
        double ratio = (Math.Sqrt(5) - 1) / 2;
        int best = 0;
        for (int k = 1; k < tried.Length; k++)
        {
            best = tried[k].Difference < tried[best].Difference ? k : best;
        }

        double low = tried[Math.Max(best - 1, 0)].WallMm, high = tried[Math.Min(best + 1, tried.Length - 1)].WallMm;
        while (high - low > RefinementMm)
        {
            double left = high - (ratio * (high - low)), right = low + (ratio * (high - low));
            (low, high) = compared.Difference(left) < compared.Difference(right) ? (low, right) : (left, high);
        }

        double middle = (low + high) / 2;
        return compared.Difference(middle) < tried[best].Difference ? PointAt(compared, middle) : tried[best];
    }
}
