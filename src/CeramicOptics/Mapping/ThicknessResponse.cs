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
    public const double WantedError = 0.005;

    internal const double NarrowestMm = 0.001;

    private const int FirstNodes = 64, MostNodes = 4096, FirstSteps = 1024, MostSteps = 1 << 17;

    // The error is seen in the middle between nodes. A smooth curve is nowhere off by much more, and one with a corner,
    // as a difference has where it passes zero, by twice that at most.
    private const double Margin = 2;

    private static readonly ThicknessGoal[] Goals = [ThicknessGoal.Recommended, ThicknessGoal.Reliable,
        ThicknessGoal.ByColor];

    private readonly double[] _differences, _minimaMm;
    private readonly Lab[] _colors;
    private readonly double _perStep, _perNode;

    internal ThicknessResponse(
        ThicknessRange range, Lab[] colors, double[] differences, double errorBound, ThicknessRequirement requirement)
    {
        (Range, _colors, _differences, ErrorBound, Requirement) = (range, colors, differences, errorBound, requirement);
        double length = range.MaxMm - range.MinMm;
        (_perStep, _perNode) = ((differences.Length - 1) / length, (colors.Length - 1) / length);
        ByColorMm = requirement.Minimum.ByColorMm ?? double.PositiveInfinity;
        _minimaMm = [.. Goals.Select(goal => requirement.ThicknessMm(goal) ?? double.NaN)];
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

    internal ReadOnlySpan<Lab> ColorNodes => _colors;

    internal double StepsPerMm => _perStep;

    /// <summary>From here on the exact answer is within the limit; infinite when nowhere.</summary>
    internal double ByColorMm { get; }

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
        ZoneMasking answer = MaskingThickness.Find(comparison, masking ?? MaskingOptions.Default, cancellation);
        progress?.Report(0.5);

        // A tenth of the wanted error, so that the bound of differences serves for colours too.
        (Lab[] colors, double colorError) = Refined(
            mm => ColorAt(comparison, mm), FirstNodes, MostNodes, WantedError / 10, range, Interpolate,
            ColorDifference.Cie76, cancellation);
        progress?.Report(0.7);
        double compiled = Enumerable.Range(0, FirstNodes + 1).Max(i => comparison.ErrorAt(At(range, i, FirstNodes)));
        (double[] differences, double error) = Refined(
            comparison.Difference, FirstSteps, MostSteps, WantedError - Math.Min(compiled, WantedError / 2), range,
            Line, Distance, cancellation);
        progress?.Report(1);
        ThicknessRequirement requirement = new(
            zone.Name, answer.Minimum, range.MaxMm, one.Criterion,
            Caution.Of(one, comparison.Tables).Concat(MaskingThickness.CautionsOf(answer)));
        return new ThicknessResponse(range, colors, differences, Math.Max(error, colorError) + compiled, requirement);
    }

    /// <summary>Colour under the first illuminant at one thickness.</summary>
    /// <param name="wallMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public Lab ColorAt(double wallMm)
    {
        Guard.InRange(wallMm, Range.MinMm, Range.MaxMm, "mm");
        return ColorUnchecked(wallMm);
    }

    /// <summary>Largest difference over illuminants at one thickness.</summary>
    /// <param name="wallMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public double DifferenceAt(double wallMm)
    {
        Guard.InRange(wallMm, Range.MinMm, Range.MaxMm, "mm");
        return Difference(_differences, Range.MinMm, _perStep, wallMm);
    }

    /// <summary>The straight line between two steps of a table of differences; NaN for NaN and outside the
    /// table.</summary>
    internal static double Difference(ReadOnlySpan<double> table, double min, double perMm, double mm)
    {
        double at = (mm - min) * perMm;
        int last = table.Length - 1;
        if (!(at >= 0 && at <= last))
        {
            // Rounding may carry the end of the range an ulp beyond the table.
            return at > last && at <= last * (1 + 1e-12) ? table[last] : double.NaN;
        }

        int step = (int)at;
        double one = table[step];
        return step == last ? one : one + ((at - step) * (table[step + 1] - one));
    }

    /// <summary>Smallest thickness for a goal; NaN where there is none.</summary>
    internal double MinimumMm(ThicknessGoal goal) => _minimaMm[(int)goal];

    /// <summary>What can be said of a thickness with a difference, NaN outside the table.</summary>
    /// <param name="mm">The thickness, mm; NaN for no data.</param>
    /// <param name="difference">The difference there.</param>
    /// <param name="isPlain">True when it is that of this table, which the exact answer may contradict.</param>
    internal PointStatus StatusOf(double mm, double difference, bool isPlain)
    {
        double above = difference - Requirement.Criterion.Limit;
        return double.IsNaN(mm) ? PointStatus.NoData
            : double.IsNaN(difference) ? PointStatus.OutOfRange
            : above > (isPlain && mm >= ByColorMm ? ErrorBound : 0) ? PointStatus.Shows
            : mm < Requirement.Minimum.StructuralMm ? PointStatus.BelowStructuralMinimum
            : PointStatus.MaskedByColor;
    }

    internal Lab ColorUnchecked(double wallMm) => Interpolate(_colors, (wallMm - Range.MinMm) * _perNode);

    internal static void RequireWide(ThicknessRange range, string name) =>
        Guard.InRange(
            Math.Round(range.MaxMm - range.MinMm, 12), NarrowestMm, Layer.MaximumThicknessMm, "mm",
            $"width of the {name}");

    private static double At(ThicknessRange range, double step, int steps) =>
        Math.Min(range.MaxMm, range.MinMm + ((range.MaxMm - range.MinMm) * step / steps));

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
        Func<T[], double, T> interpolate,
        Func<T, T, double> distance,
        CancellationToken cancellation)
    {
        T[] nodes = [.. Enumerable.Range(0, first + 1).Select(i => value(At(range, i, first)))];
        while (true)
        {
            int steps = nodes.Length - 1;
            T[] finer = new T[(2 * steps) + 1];
            double worst = 0;
            for (int i = 0; i < steps; i++)
            {
                if (i % 4096 == 0)
                {
                    cancellation.ThrowIfCancellationRequested();
                }

                (finer[2 * i], finer[(2 * i) + 1]) = (nodes[i], value(At(range, i + 0.5, steps)));
                worst = Math.Max(worst, distance(finer[(2 * i) + 1], interpolate(nodes, i + 0.5)));
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

    // Cubic through the two nodes beside, with slopes from their neighbours.
    private static Lab Interpolate(Lab[] nodes, double at)
    {
        int last = nodes.Length - 1, left = Math.Max(0, Math.Min((int)at, last - 1));
        double f = at - left, g = 1 - f;
        Lab one = nodes[left], two = nodes[left + 1];

        // Beyond an end the parabola through the three nodes there goes on.
        Lab before = left > 0 ? nodes[left - 1] : Beyond(one, two, nodes[left + 2]);
        Lab after = left < last - 1 ? nodes[left + 2] : Beyond(two, one, nodes[left - 1]);
        double fromBefore = -0.5 * f * g * g, fromAfter = -0.5 * g * f * f;
        double fromOne = (g * g * (1 + (2 * f))) - (0.5 * -f * f * g), fromTwo = (f * f * (1 + (2 * g)))
            - (0.5 * -g * g * f);
        return new Lab(
            (fromBefore * before.L) + (fromOne * one.L) + (fromTwo * two.L) + (fromAfter * after.L),
            (fromBefore * before.A) + (fromOne * one.A) + (fromTwo * two.A) + (fromAfter * after.A),
            (fromBefore * before.B) + (fromOne * one.B) + (fromTwo * two.B) + (fromAfter * after.B));
    }

    private static Lab Beyond(Lab first, Lab second, Lab third) => new(
        (3 * first.L) - (3 * second.L) + third.L,
        (3 * first.A) - (3 * second.A) + third.A,
        (3 * first.B) - (3 * second.B) + third.B);
}
