using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>Colour and difference of one zone as tables over the thickness of its wall, for maps of many
/// points.</summary>
/// <remarks>
/// L*a*b* is a cubic between nodes (Catmull-Rom inside, a parabola at the ends), the largest difference over
/// illuminants a straight line between finer ones. Both are refined until the values halfway between all nodes agree
/// within 0.005, with a margin; <see cref="ErrorBound"/> says what was reached. CIEDE2000 jumps where two hues are
/// exactly opposite; no table is good there, and the bound says so. Immutable and safe to share.
/// </remarks>
public sealed class ThicknessResponse
{
    /// <summary>Error in L*a*b* and in the difference that tables are refined to.</summary>
    internal const double WantedError = 0.005;

    internal const double NarrowestMm = 0.001;

    private const int FirstNodes = 64, MostNodes = 4096, FirstSteps = 1024, MostSteps = 1 << 17;

    // The error is seen in the middle between nodes. A smooth curve is nowhere off by much more, and one with a corner,
    // as a difference has where it passes zero, by twice that at most.
    private const double Margin = 2;

    private static readonly ThicknessGoal[] Goals = [ThicknessGoal.Recommended, ThicknessGoal.Reliable,
        ThicknessGoal.ByColor];

    private readonly double[] _differences, _minimaMm, _enoughMm, _upToMm;
    private readonly ColorNodes _colors;
    private readonly double _perStep, _perNode;

    internal ThicknessResponse(
        ThicknessRange range, Lab[] colors, double[] differences, double errorBound, ThicknessRequirement requirement,
        IReadOnlyList<ThicknessRange> masked)
    {
        (Range, _differences, ErrorBound, Requirement) = (range, differences, errorBound, requirement);
        _colors = new ColorNodes(colors);
        double length = range.MaxMm - range.MinMm;
        (_perStep, _perNode) = ((differences.Length - 1) / length, (colors.Length - 1) / length);
        _minimaMm = [.. Goals.Select(goal => requirement.ThicknessMm(goal) ?? double.NaN)];
        _enoughMm = [.. _minimaMm.Select(SinglePrecision.Below)];
        _upToMm = [.. Goals.Select(
            goal => SinglePrecision.Above(requirement.UpToMm(goal) ?? double.PositiveInfinity))];
        (MaskedRanges, Statuses) = (masked, new StatusSteps(range, masked, requirement.Minimum));
    }

    /// <summary>Thicknesses of the wall that the tables cover.</summary>
    public ThicknessRange Range { get; }

    /// <summary>
    /// Bound on the error of the difference, and of L*a*b* as a distance, from what was seen between the nodes, with
    /// its margin, and from the compiled stack.
    /// </summary>
    public double ErrorBound { get; }

    /// <summary>How thick the wall must be, with cautions: the answer of <see cref="MaskingThickness"/> for this
    /// zone.</summary>
    public ThicknessRequirement Requirement { get; }

    internal ReadOnlySpan<double> DifferenceTable => _differences;

    internal ReadOnlySpan<Lab> ColorNodes => _colors.Nodes;

    internal double StepsPerMm => _perStep;

    /// <summary>Thicknesses at which the exact difference is within the limit, rising.</summary>
    internal IReadOnlyList<ThicknessRange> MaskedRanges { get; }

    internal StatusSteps Statuses { get; }

    /// <summary>Makes the tables of one zone over the restoration's range of walls.</summary>
    /// <param name="restoration">The restoration; colours are those under its first illuminant.</param>
    /// <param name="zone">The zone, one of the restoration's or another.</param>
    /// <param name="masking">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">Grids or models differ, or a target was read in another
    /// geometry.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The zone's available thickness is outside the range of the wall, or the range is narrower than 0.001 mm.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static ThicknessResponse Compile(
        Restoration restoration,
        Zone zone,
        MaskingOptions? masking = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Restoration one = Guard.NotNull(restoration).WithZones([Guard.NotNull(zone)]);
        ZoneComparison comparison = new(new CompiledWall(one, cancellation), zone);
        ThicknessRange range = comparison.Range;
        RequireWide(range, "range of the wall");
        ZoneMasking answer = MaskingThickness.Find(comparison, masking ?? new MaskingOptions(), cancellation);
        progress?.Report(0.5);

        // A tenth of the wanted error, so that the bound of differences serves for colours too.
        (Lab[] colors, double colorError) = Refined(
            mm => ColorAt(comparison, mm), FirstNodes, MostNodes, WantedError / 10, range,
            nodes => new ColorNodes(nodes).At,
            ColorDifference.Cie76, cancellation);
        progress?.Report(0.7);
        double compiled = Enumerable.Range(0, FirstNodes + 1).Max(
            i => comparison.ErrorAt(range.At(i / (double)FirstNodes)));
        (double[] differences, double error) = Refined(
            comparison.Difference, FirstSteps, MostSteps, WantedError - Math.Min(compiled, WantedError / 2), range,
            nodes => at => Line(nodes, at), Distance, cancellation);
        progress?.Report(1);
        ThicknessRequirement requirement = new(
            zone.Name, answer.Minimum, range.MaxMm, one.Criterion,
            Caution.Of(one, comparison.Tables).Concat(MaskingThickness.CautionsOf(answer)));
        return new ThicknessResponse(
            range, colors, differences, Math.Max(error, colorError) + compiled, requirement, answer.MaskedRanges);
    }

    /// <summary>Colour under the first illuminant at one thickness.</summary>
    /// <param name="wallMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public Lab ColorAt(double wallMm) =>
        ColorUnchecked(Guard.InRange(SinglePrecision.Inside(Range, wallMm), Range.MinMm, Range.MaxMm, "mm"));

    /// <summary>Largest difference over illuminants at one thickness.</summary>
    /// <param name="wallMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public double DifferenceAt(double wallMm)
    {
        Guard.InRange(SinglePrecision.Inside(Range, wallMm), Range.MinMm, Range.MaxMm, "mm");
        return DifferenceOrNone(wallMm);
    }

    /// <summary>The straight line between two steps of a table of differences; NaN for NaN and outside the table, whose
    /// ends are also those that single precision makes of them.</summary>
    internal static double Difference(ReadOnlySpan<double> table, double min, double perMm, double mm)
    {
        double at = (mm - min) * perMm;
        int last = table.Length - 1;
        if (!(at >= 0 && at <= last))
        {
            return mm < min ? (mm >= SinglePrecision.Below(min) ? table[0] : double.NaN)
                : mm <= SinglePrecision.Above(min + (last / perMm)) ? table[last] : double.NaN;
        }

        int step = (int)at;
        double one = table[step];
        return step == last ? one : one + ((at - step) * (table[step + 1] - one));
    }

    /// <summary>The difference at a thickness; NaN where it is not covered.</summary>
    internal double DifferenceOrNone(double mm) => Difference(_differences, Range.MinMm, _perStep, mm);

    /// <summary>Smallest thickness for a goal; NaN where there is none.</summary>
    internal double MinimumMm(ThicknessGoal goal) => _minimaMm[(int)goal];

    /// <summary>How much thicker a wall must be for a goal; NaN where thicker does not help.</summary>
    internal double MissingMm(double mm, ThicknessGoal goal) => !(mm >= _enoughMm[(int)goal])
        ? _minimaMm[(int)goal] - mm
        : mm > _upToMm[(int)goal] ? double.NaN : 0;

    /// <summary>What can be said of a thickness inside the range with a difference that is not that of this
    /// table.</summary>
    internal PointStatus StatusOf(double mm, double difference) =>
        difference > Requirement.Criterion.Limit ? PointStatus.Shows
            : mm < SinglePrecision.Below(Requirement.Minimum.StructuralMm ?? 0) ? PointStatus.BelowStructuralMinimum
            : PointStatus.MaskedByColorOnly;

    /// <summary>The colour at a thickness; NaN in all three where it is not covered.</summary>
    internal Lab ColorOrNone(double mm)
    {
        double inside = SinglePrecision.Inside(Range, mm);
        return Range.Contains(inside) ? ColorUnchecked(inside) : new Lab(double.NaN, double.NaN, double.NaN);
    }

    internal Lab ColorUnchecked(double wallMm) => _colors.At((wallMm - Range.MinMm) * _perNode);

    /// <summary>The colours at many thicknesses; NaN in all three where one is not covered.</summary>
    internal void Colors(ReadOnlySpan<double> mm, Span<Lab> destination)
    {
        ColorNodes colors = _colors;
        (double min, double max, double perNode) = (Range.MinMm, Range.MaxMm, _perNode);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = mm[i] >= min && mm[i] <= max ? colors.At((mm[i] - min) * perNode) : ColorOrNone(mm[i]);
        }
    }

    internal static void RequireWide(ThicknessRange range, string name) =>
        Guard.InRange(
            Math.Round(range.MaxMm - range.MinMm, 12), NarrowestMm, Layer.MaximumThicknessMm, "mm",
            $"width of the {name}");

    private static Lab ColorAt(ZoneComparison comparison, double wallMm)
    {
        Span<Lab> colors = stackalloc Lab[comparison.Lights], references = stackalloc Lab[comparison.Lights];
        comparison.Evaluate(wallMm, colors, references);
        return colors[0];
    }

    // Twice as many nodes until the interpolation halfway between them is right; the middles become nodes of the next
    // table, so that nothing is evaluated twice.
    private static (T[] Nodes, double Error) Refined<T>(
        Func<double, T> value,
        int first,
        int most,
        double wantedError,
        ThicknessRange range,
        Func<T[], Func<double, T>> interpolation,
        Func<T, T, double> distance,
        CancellationToken cancellation)
    {
        T[] nodes = [.. Enumerable.Range(0, first + 1).Select(i => value(range.At(i / (double)first)))];
        while (true)
        {
            int steps = nodes.Length - 1;
            T[] finer = new T[(2 * steps) + 1];
            Func<double, T> interpolate = interpolation(nodes);
            double worst = 0;
            for (int i = 0; i < steps; i++)
            {
                if (i % 4096 == 0)
                {
                    cancellation.ThrowIfCancellationRequested();
                }

                (finer[2 * i], finer[(2 * i) + 1]) = (nodes[i], value(range.At((i + 0.5) / steps)));
                worst = Math.Max(worst, distance(finer[(2 * i) + 1], interpolate(i + 0.5)));
            }

            finer[2 * steps] = nodes[steps];
            if (Margin * worst <= wantedError || 2 * steps > most)
            {
                return (nodes, Margin * worst);
            }

            nodes = finer;
        }
    }

    private static double Line(double[] nodes, double at) => (nodes[(int)at] + nodes[(int)at + 1]) / 2;

    private static double Distance(double one, double other) => Math.Abs(one - other);
}
