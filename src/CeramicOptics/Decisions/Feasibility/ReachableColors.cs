using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>The range of colours that can be made over the stump of one zone, and what is nearest to a wish.</summary>
public static class ReachableColors
{
    private const double RefinementMm = 1e-4;

    /// <summary>Looks at every ceramic, veneer, share, cement and wall thickness.</summary>
    /// <param name="restoration">The case; walls from the start of its range to the available thickness of the zone are tried (not below the structural minimum), the first of its colorimeters counts.</param>
    /// <param name="zone">The zone; its reference is a target, which is the wish.</param>
    /// <param name="options">What there is to choose from.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two combinations.</param>
    /// <exception cref="ArgumentException">The zone's reference is no target, grids differ, or strength allows no thickness of the range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static Realism Find(
        RestorationCase restoration, Zone zone, MatchOptions options, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        Guard.NotNull(zone);
        Guard.NotNull(options);
        Colorimeter under = restoration.Conditions.Colorimeters[0];
        WeightingTable table = under.Weighting(options.Ceramics[0].Material.Grid);
        Lab wish = (zone.Reference.TargetColors([under], table.Grid)
            ?? throw new ArgumentException($"Zone '{zone.Name}' is compared with {zone.Reference}, which is no target colour.", nameof(zone)))[0];
        double structural = restoration.Conditions.StructuralMinimumMm ?? 0, thickest = zone.AvailableThicknessMm;
        BoundaryCache boundaries = new();
        double[] spectrum = new double[table.Grid.Count];
        List<ReachablePoint> points = [];
        (double Difference, ReachablePoint Point, Func<double, Lab> At)? nearest = null;

        (Ceramic Ceramic, Material? Veneer, double Share, Layer Cement)[] combinations =
        [
            .. from ceramic in options.Ceramics
               from veneer in options.VeneerChoices
               from share in veneer is null ? [0] : options.VeneerShares
               from cement in options.Cements
               select (ceramic, veneer, share, cement),
        ];
        for (int k = 0; k < combinations.Length; k++)
        {
            cancellation.ThrowIfCancellationRequested();
            (Ceramic ceramic, Material? veneer, double share, Layer cement) = combinations[k];
            double thinnest = Math.Max(restoration.RangeMm.Min, structural / (1 - share));
            if (thinnest <= thickest)
            {
                WallDesign design = new(ceramic, veneer, share);
                LayerStack stack = new([.. restoration.LayersAbove, .. design.Layers(1), .. restoration.LayersBelow, cement], zone.Substrate, restoration.Coupling);
                StackKernel kernel = new(stack, restoration.Conditions.Geometry, boundaries);
                double[] layers = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
                int core = restoration.LayersAbove.Count;

                Lab At(double wall)
                {
                    design.SetThicknesses(layers, core, wall);
                    kernel.Reflectance(layers, 0, spectrum);
                    return Lab.FromXyz(table.SumInLanes(spectrum), table.White);
                }

                foreach (double wall in MatchEvaluator.Thicknesses(thinnest, thickest, options.ThicknessStepMm))
                {
                    ReachablePoint point = new(At(wall), ceramic, veneer, share, wall, cement);
                    points.Add(point);
                    double difference = restoration.Criterion.Difference(wish, point.Color);
                    nearest = nearest is null || difference < nearest.Value.Difference ? (difference, point, At) : nearest;
                }
            }

            progress?.Report((k + 1.0) / combinations.Length);
        }

        if (nearest is not { } found)
        {
            throw new ArgumentException(
                $"Zone '{zone.Name}' has {Guard.Text(thickest)} mm, which leaves no room for the structural minimum of {Guard.Text(structural)} mm and the range from {Guard.Text(restoration.RangeMm.Min)} mm on.", nameof(restoration));
        }

        ReachablePoint best = Refine(restoration, found.Point, found.At, wish, structural, thickest, options.ThicknessStepMm);
        double remaining = restoration.Criterion.Difference(wish, best.Color);
        (IReadOnlyList<int> corners, IReadOnlyList<(int, int, int)> triangles) = ConvexHull.Of([.. points.Select(point => point.Color)]);
        bool realistic = remaining <= restoration.Criterion.Limit;
        return new Realism
        {
            Wish = wish,
            Nearest = best,
            Difference = remaining,
            IsRealistic = realistic,
            Points = points.AsReadOnly(),
            HullCorners = Guard.Copy(corners.Select(i => points[i])),
            HullTriangles = triangles,
            Under = under,
            Sentence = Realism.SentenceFor(zone, restoration.Criterion, best, wish, remaining, realistic),
            Cautions = [Caution.Strength, Caution.ToothReduction, .. Caution.OfShortSpectra([table]), .. Caution.OfEstimates([zone.Substrate], [zone.Reference], [under])],
        };
    }

    // Golden-section search between the neighbours of the best thickness tried.
    private static ReachablePoint Refine(RestorationCase restoration, ReachablePoint point, Func<double, Lab> at, Lab wish, double structural, double thickestMm, double stepMm)
    {
        double ratio = (Math.Sqrt(5) - 1) / 2;
        double low = Math.Max(point.WallMm - stepMm, Math.Max(restoration.RangeMm.Min, structural / (1 - point.VeneerShare)));
        double high = Math.Min(point.WallMm + stepMm, thickestMm);
        double Difference(double wall) => restoration.Criterion.Difference(wish, at(wall));
        while (high - low > RefinementMm)
        {
            double left = high - (ratio * (high - low)), right = low + (ratio * (high - low));
            (low, high) = Difference(left) < Difference(right) ? (low, right) : (left, high);
        }

        double middle = (low + high) / 2;
        return Difference(middle) < Difference(point.WallMm) ? point with { WallMm = middle, Color = at(middle) } : point;
    }
}
