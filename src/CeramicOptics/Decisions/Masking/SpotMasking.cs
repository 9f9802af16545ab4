using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Masking;

/// <summary>How thick a wall must be so that a dark spot on the stump, such as a post, does not show anywhere, not even
/// around it.</summary>
public static class SpotMasking
{
    private const double SmallestRadiusMm = 0.5, LargestRadiusMm = 10;

    private const double StepMm = 0.01, ResolutionMm = 1e-4;

    // Share of the work that solving the spot is.
    private const double Solving = 0.9;

    /// <summary>The answer for one spot in one zone.</summary>
    /// <param name="restoration">The restoration; walls over its range are considered.</param>
    /// <param name="zone">The zone: its stump surrounds the spot, and all colours are compared with its
    /// reference.</param>
    /// <param name="spot">The stump inside the spot.</param>
    /// <param name="radiusMm">Radius of the spot, 0.5 to 10 mm; take 10 for a straight edge.</param>
    /// <param name="options">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>
    /// By colour: from this wall on the criterion is met at every distance, far away included, for all thicker walls of
    /// the range, for a target of the thinnest that meet it, in steps of 0.01 mm. Reliable: the larger of the zone's
    /// own and of that over a stump that looks, at the thickness by colour, as the spot does where it shows most, with
    /// what is not known of how forward the layers scatter.
    /// </returns>
    /// <exception cref="ArgumentException">Grids or models differ, or a target was read in another
    /// geometry.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The radius is outside its range, or the zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>
    /// With radiative transfer and 31 wavelengths it takes seconds. The spot is round and sharp, the wall flat and of
    /// one thickness; a thicker wall blurs the spot more, which the reliable thickness leaves out.
    /// </remarks>
    public static SpotMaskingResult Find(
        Restoration restoration,
        Zone zone,
        Substrate spot,
        double radiusMm,
        MaskingOptions? options = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Restoration one = Guard.NotNull(restoration).WithZones([Guard.NotNull(zone)]);
        Guard.NotNull(spot);
        Guard.InRange(radiusMm, SmallestRadiusMm, LargestRadiusMm, "mm");
        CompiledWall wall = new(one, cancellation);
        ZoneComparison comparison = new(wall, zone);
        MaskingOptions chosen = options ?? new MaskingOptions();
        SpotCurves curves = new(comparison, spot, radiusMm, progress, Solving, cancellation);
        ZoneMasking around = MaskingThickness.Find(comparison, chosen, cancellation);
        ThicknessRange? byColor = ByColor(curves, comparison);
        double? reliable = null, upTo = null, uncertainty = null;
        if (byColor is { } met)
        {
            double mm = met.MinMm;
            Zone like = zone.On(curves.StumpLike(curves.Worst(mm), mm, spot.Name));
            MinimumThickness over = MaskingThickness.Find(
                new ZoneComparison(wall, like), chosen, cancellation).Minimum;
            reliable = Larger(Larger(around.Minimum.ReliableMm, over.ReliableMm), mm);
            upTo = -Larger(Larger(-around.Minimum.ReliableUpToMm, -over.ReliableUpToMm), -met.MaxMm);
            uncertainty = (over.ByColorMm < around.Minimum.ByColorMm ? around.Minimum : over).StandardUncertaintyMm;
            SpotAnisotropy sideways = new(curves, comparison, mm);
            reliable = sideways.Reliable(reliable, chosen.Share);
            (reliable, upTo) = upTo < reliable ? (null, null) : (reliable, upTo);
            uncertainty = sideways.Uncertainty(uncertainty);
        }

        progress?.Report(1);
        MinimumThickness minimum = new(
            byColor?.MinMm, reliable, around.Minimum.StructuralMm, comparison.Range.MaxMm, chosen.Share, uncertainty,
            comparison.Targets is null ? null : byColor?.MaxMm, upTo);
        IEnumerable<Caution> cautions = Caution.Of(one, comparison.Tables)
            .Concat(Caution.OfStump(spot))
            .Concat(MaskingThickness.CautionsOf(around).Where(caution => caution.Kind
                is CautionKind.BelowStructuralMinimum))
            .Concat(MaskingThickness.CautionsOf(zone.Name, minimum))
            .Concat(MaskingThickness.CautionsOfRoom(zone, minimum))
            .Concat([Caution.SidewaysLight]);
        return new SpotMaskingResult(one, zone, spot, radiusMm, minimum, curves, comparison.Range, cautions.Distinct());
    }

    private static double? Larger(double? one, double? other) =>
        one is double a && other is double b ? Math.Max(a, b) : null;

    // Masking: from the thick end as far as it is met. A target: the thinnest walls that meet it.
    private static ThicknessRange? ByColor(SpotCurves curves, ZoneComparison zone)
    {
        bool Meets(double mm) => curves.Largest(mm) <= zone.Criterion.Limit;
        double Edge(double missed, double met)
        {
            while (Math.Abs(met - missed) > ResolutionMm)
            {
                double middle = (missed + met) / 2;
                (missed, met) = Meets(middle) ? (missed, middle) : (middle, met);
            }

            return met;
        }

        double[] walls = zone.Range.Steps(StepMm);
        if (zone.Targets is null)
        {
            int from = walls.Length;
            while (from > 0 && Meets(walls[from - 1]))
            {
                from--;
            }

            return from == walls.Length ? null
                : new ThicknessRange(from == 0 ? walls[0] : Edge(walls[from - 1], walls[from]), zone.Range.MaxMm);
        }

        int first = Array.FindIndex(walls, Meets);
        if (first < 0)
        {
            return null;
        }

        int missed = Array.FindIndex(walls, first, mm => !Meets(mm));
        return new ThicknessRange(
            first == 0 ? walls[0] : Edge(walls[first - 1], walls[first]),
            missed < 0 ? zone.Range.MaxMm : Edge(walls[missed], walls[missed - 1]));
    }
}
