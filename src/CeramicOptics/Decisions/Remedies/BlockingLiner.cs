using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>The thinnest opaque liner that makes a ceramic work where it does not mask by itself.</summary>
public static class BlockingLiner
{
    private const double StepMm = 0.005, ResolutionMm = 0.0005;

    /// <summary>Looks for the liner.</summary>
    /// <param name="restoration">The case; the liner comes right under the ceramic, above <see cref="RestorationCase.LayersBelow"/>.</param>
    /// <param name="ceramic">The ceramic.</param>
    /// <param name="liner">Substance of the liner.</param>
    /// <param name="maximumMm">Thickest liner to consider, 0.01 to 2 mm.</param>
    /// <param name="takesFromCeramic">True when liner and ceramic share the available thickness; false when the liner adds to it.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two thicknesses.</param>
    /// <remarks>Thicknesses are tried in steps of 0.005 mm and the first that works is refined; a gain narrower than a step can be missed.</remarks>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is outside its range, or leaves no ceramic that strength allows.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static BlockingLinerResult Find(
        RestorationCase restoration, Ceramic ceramic, Material liner, double maximumMm = 0.3, bool takesFromCeramic = true,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Guard.NotNull(restoration);
        Guard.NotNull(ceramic);
        Guard.NotNull(liner);
        Guard.InRange(maximumMm, 0.01, 2, "mm");
        double thinnest = restoration.Zones.Min(zone => zone.AvailableThicknessMm), structural = restoration.Conditions.StructuralMinimumMm ?? 0;
        double last = takesFromCeramic ? Math.Min(maximumMm, thinnest - Math.Max(structural, 1e-3)) : maximumMm;
        Guard.InRange(last, 0, maximumMm, "mm", "room for a liner beside the structural minimum");

        int position = restoration.LayersAbove.Count;
        BoundaryCache boundaries = new();
        StackJudge[] judges = [.. restoration.Zones.Select(zone => new StackJudge(
            StackOf(zone, 0), position, zone.Reference, restoration.Criterion, restoration.Conditions, boundaries))];

        LayerStack StackOf(Zone zone, double linerMm) => new(
            [
                .. restoration.LayersAbove,
                new Layer(ceramic.Material, zone.AvailableThicknessMm - (takesFromCeramic ? linerMm : 0)),
                new Layer(liner, linerMm),
                .. restoration.LayersBelow,
            ],
            zone.Substrate,
            restoration.Coupling);

        WorstCase[] At(double linerMm) => [.. restoration.Zones.Select((zone, z) =>
        {
            double[] layers = judges[z].ThicknessesMm;
            layers[position] = zone.AvailableThicknessMm - (takesFromCeramic ? linerMm : 0);
            layers[position + 1] = linerMm;
            return judges[z].Worst(layers, linerMm);
        })];

        double Worst(WorstCase[] zones) => zones.Max(zone => zone.Difference);

        double? found = null;
        double bestMm = 0, before = 0;
        WorstCase[] best = At(0);
        int steps = (int)Math.Ceiling(last / StepMm);
        for (int i = 0; i <= steps && found is null; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            double mm = Math.Min(i * StepMm, last);
            WorstCase[] there = At(mm);
            if (Worst(there) < Worst(best))
            {
                (best, bestMm) = (there, mm);
            }

            if (Worst(there) <= restoration.Criterion.Limit)
            {
                double low = before, high = mm;
                while (high - low > ResolutionMm)
                {
                    double middle = (low + high) / 2;
                    (low, high) = Worst(At(middle)) <= restoration.Criterion.Limit ? (low, middle) : (middle, high);
                }

                found = high;
            }

            before = mm;
            progress?.Report(found is null ? (i + 1.0) / (steps + 1) : 1);
        }

        double shown = found ?? bestMm;
        return new BlockingLinerResult(
            found, Guard.Copy(At(shown)), bestMm, TranslucencyWith(0), TranslucencyWith(shown), [Caution.Strength, Caution.ToothReduction, .. Caution.OfShortSpectra(judges[0].Tables)]);

        double TranslucencyWith(double linerMm) =>
            WallTranslucency.Of([new Layer(ceramic.Material, thinnest - (takesFromCeramic ? linerMm : 0)), new Layer(liner, linerMm)]);
    }
}
