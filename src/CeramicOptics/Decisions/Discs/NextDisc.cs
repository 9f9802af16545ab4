using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Discs;

/// <summary>Which discs to make and measure so that one answer becomes more certain.</summary>
/// <remarks>
/// The answer is taken as linear in K and S; a disc is judged by the variance that the answer will have once all
/// readings are fitted together, cᵀ C c with the slopes c of the answer and the covariance C of K and S at all
/// wavelengths (c-optimality: Pukelsheim 2006, Optimal Design of Experiments; as a Bayesian decision: Chaloner,
/// Verdinelli 1995, Statistical Science 10:273-304, at the constants given: locally optimal). Several discs are chosen
/// one after another, each the best addition to those before it.
/// </remarks>
public static class NextDisc
{
    private const double Worthwhile = 0.95, PoorMiss = 3;

    private static readonly double[] CandidatesMm =
        [0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0];

    /// <summary>The discs to make in addition to those already measured.</summary>
    /// <param name="restoration">
    /// The restoration. The discs belong to the layers whose material has the name of the disc set; K and S of these
    /// layers are those found from the discs.
    /// </param>
    /// <param name="goal">The answer that is to become more certain.</param>
    /// <param name="discs">
    /// The readings made, at least one of them over a backing; new discs are read over the same backings, in the
    /// geometry of the first.
    /// </param>
    /// <param name="options">Which discs can be made, and how certain readings are; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// No layer is of the material of the discs, or at a wavelength that was not read; no reading over a backing; grids
    /// or models differ; no disc that can be made determines K and S.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static DiscPlan Find(
        Restoration restoration, DiscGoal goal, DiscSet discs, DiscPlanOptions? options = null,
        IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Material material = Guard.NotNull(restoration).LayersOf(restoration.WallRange.MaxMm)
            .Select(item => item.Layer.Material).FirstOrDefault(one => one.Name == Guard.NotNull(discs).Name)
            ?? throw new ArgumentException(
                $"No layer of the restoration is of '{discs.Name}', the material of the discs.", nameof(discs));
        for (int i = 0; i < material.Grid.Count; i++)
        {
            if (discs.Grid.IndexOf(material.Grid[i]) < 0)
            {
                throw new ArgumentException(
                    $"'{material.Name}' has K and S at {Guard.Text(material.Grid[i])} nm, where no disc was read.",
                    nameof(discs));
            }
        }

        DiscReading[] ways = [.. discs.Readings.Where(reading => !reading.IsTransmittance)
            .GroupBy(reading => reading.Backing).Select(group => group.First())];
        return ways.Length > 0
            ? Plan(
                restoration, goal, material, discs, [.. ways.Select(way => way.Backing!)], ways[0].Geometry,
                options ?? new DiscPlanOptions(), progress, cancellation)
            : throw new ArgumentException(
                $"No disc of '{discs.Name}' was read over a backing.", nameof(discs));
    }

    /// <summary>The discs to make of a new ceramic of which none has been measured.</summary>
    /// <param name="restoration">
    /// The restoration, with a provisional material as its core: of a similar ceramic, or of an invented
    /// one of its class. The plan is the best for that guess.
    /// </param>
    /// <param name="goal">The answer that is to become more certain.</param>
    /// <param name="backings">At least two backings, such as black and white tiles, on the material's grid.</param>
    /// <param name="geometry">Geometry of the readings, of a large area.</param>
    /// <param name="options">Which discs can be made, and how certain readings are; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than two backings; grids or models differ; no disc that can be made determines K and S.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A zone's available thickness is outside the range of the wall.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static DiscPlan FindForNew(
        Restoration restoration, DiscGoal goal, IEnumerable<Backing> backings, MeasurementGeometry geometry,
        DiscPlanOptions? options = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
        => Plan(
            Guard.NotNull(restoration), goal, restoration.Core.Material, null,
            Guard.Copy(Guard.Copy(backings).Distinct(), minimumCount: 2, nameof(backings)), Guard.Defined(geometry),
            options ?? new DiscPlanOptions(), progress, cancellation);

    private static DiscPlan Plan(
        Restoration restoration, DiscGoal goal, Material material, DiscSet? read, IReadOnlyList<Backing> backings,
        MeasurementGeometry geometry, DiscPlanOptions options, IProgress<double>? progress,
        CancellationToken cancellation)
    {
        Guard.Defined(goal);
        List<DiscFinding> findings = [];
        (ZoneComparison zone, double? crossingMm) = Governing(restoration, goal, material, findings, cancellation);
        AnswerAt answer = new(zone, material.Name, crossingMm);
        DiscGoal judged = crossingMm is null ? DiscGoal.Difference : DiscGoal.MaskingThickness;

        DiscReading[] made = [.. (read?.Readings ?? []).Select(reading => reading.With(ReadingArea.Large))];
        double[] thicknesses = [.. CandidatesMm.Where(options.Thicknesses.Contains)
            .Concat([options.Thicknesses.MinMm, options.Thicknesses.MaxMm]).Distinct().OrderBy(mm => mm)];
        WavelengthGrid grid = read?.Grid ?? material.Grid;
        ReflectanceSpectrum unread = ReflectanceSpectrum.Uniform(grid, 0.5);
        DiscSet pool = DiscSet.Imagined(
            material.Name, read?.RefractiveIndex ?? material.RefractiveIndex,
            made.Concat(thicknesses.SelectMany(mm => backings.Select(backing => DiscReading.Reflectance(
                "planned", mm, unread, backing, geometry, ReadingArea.Large, options.ReadingStandardUncertainty,
                options.ThicknessStandardUncertaintyMm)))));
        DiscErrors errors = new(
            pool, made.Length, material, options, share => progress?.Report(0.8 * share), cancellation);
        bool hasWindows = read?.HasWindows == true;
        if (hasWindows)
        {
            findings.Add(new DiscFinding(DiscFindingKind.WindowAsLarge, material.Name));
        }
        else if (errors.RootMeanSquareMiss > PoorMiss)
        {
            findings.Add(new DiscFinding(DiscFindingKind.PoorFit, material.Name, errors.RootMeanSquareMiss));
        }

        List<PooledDisc> present = [.. made.Select((reading, r) => (reading, r))
            .GroupBy(item => item.reading.ThicknessMm).Select(disc => new PooledDisc(
                disc.Key, disc.Max(item => item.reading.ThicknessStandardUncertaintyMm),
                [.. disc.Select(item => item.r)]))];
        DiscSearch search = new(
            errors, answer, judged, backings,
            [.. thicknesses.Select((mm, t) => new PooledDisc(
                mm, options.ThicknessStandardUncertaintyMm,
                [.. Enumerable.Range(made.Length + (t * backings.Count), backings.Count)]))]);
        double? before = search.UncertaintyOf(present);
        if (before is null && made.Length > 0)
        {
            findings.Add(new DiscFinding(DiscFindingKind.Undetermined, material.Name));
        }

        IReadOnlyList<PlannedDisc>? candidates = null;
        List<PlannedDisc> sequence = [];
        double? so = before is double own ? Total(own) : null;
        for (int step = 0; step <= options.Discs; step++)
        {
            cancellation.ThrowIfCancellationRequested();
            IReadOnlyList<PlannedDisc> next = search.Beside(present);
            candidates ??= next;
            PlannedDisc best = next.Count > 0 ? next[0] : throw new ArgumentException(
                $"No disc of {Guard.Text(options.Thicknesses.MinMm)} to {Guard.Text(options.Thicknesses.MaxMm)} mm "
                    + $"determines K and S of '{material.Name}' at every wavelength.", nameof(options));
            if (so is double now && best.StandardUncertainty > Worthwhile * now)
            {
                findings.Add(new DiscFinding(
                    DiscFindingKind.NoDiscHelps, material.Name, best.StandardUncertainty / now,
                    answer.FromOthers > best.FromMaterial ? answer.Others[0] : null));
                break;
            }

            if (step < options.Discs)
            {
                present.Add(search.PooledOf(best));
                sequence.Add(best);
                so = best.StandardUncertainty;
            }

            progress?.Report(0.8 + (0.2 * (step + 1) / (options.Discs + 1)));
        }

        progress?.Report(1);
        return new DiscPlan(
            judged, material.Name, zone.Zone, answer.Value, before, answer.FromOthers, answer.Others, candidates!,
            sequence, findings);

        double Total(double part) => Math.Sqrt((part * part) + (answer.FromOthers * answer.FromOthers));
    }

    // The zone of the thickest masking wall, else that of the largest difference.
    private static (ZoneComparison Zone, double? CrossingMm) Governing(
        Restoration restoration, DiscGoal goal, Material material, List<DiscFinding> findings,
        CancellationToken cancellation)
    {
        CompiledWall wall = new(WithSlopesOf(restoration, material.Name), cancellation);
        ZoneComparison[] zones = [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
        if (goal == DiscGoal.MaskingThickness)
        {
            (ZoneComparison Zone, double Mm)? thickest = null;
            foreach (ZoneComparison zone in zones)
            {
                List<Crossing> crossings = CurveSearch.Crossings(zone);
                Crossing last = crossings.LastOrDefault();
                if (last.IntoMasking && zone.SteepnessAt(last.WallMm) > 0 && !(thickest?.Mm >= last.WallMm))
                {
                    thickest = (zone, last.WallMm);
                }
            }

            if (thickest is { } found)
            {
                return (found.Zone, found.Mm);
            }
        }

        ZoneComparison worst = zones.OrderByDescending(zone => zone.Difference(zone.Zone.AvailableMm)).First();
        if (goal == DiscGoal.MaskingThickness)
        {
            findings.Add(new DiscFinding(DiscFindingKind.NoCrossing, worst.Zone.Name));
        }

        return (worst, null);
    }

    // Uncertainties tell the engine of which layers it needs slopes.
    private static Restoration WithSlopesOf(Restoration restoration, string name)
    {
        Material Asked(Material material)
        {
            double[] some = [.. Enumerable.Repeat(1e-6, material.Grid.Count)];
            return material.Name != name ? material : new Material(
                material.Name, material.Model, material.Absorption, material.Scattering, material.RefractiveIndex,
                new CoefficientUncertainty(some, some, new double[some.Length], 0), material.DiscThicknessesMm);
        }

        Layer? Of(Layer? layer) => layer is null ? null : new Layer(Asked(layer.Material), layer.ThicknessMm);
        (Ceramic core, Veneer? veneer) = (restoration.Core, restoration.Veneer);
        Restoration asked = restoration.WithCore(new Ceramic(core.Family, core.Grade, Asked(core.Material))) with
        {
            Glaze = Of(restoration.Glaze), Liner = Of(restoration.Liner),
            Veneer = veneer is null ? null
                : veneer.Share > 0 ? Veneer.OfShare(Asked(veneer.Material), veneer.Share)
                : Veneer.OfThickness(Asked(veneer.Material), veneer.ThicknessMm),
        };
        return restoration.Cement is null ? asked : asked.WithCement(Of(restoration.Cement)!);
    }
}
