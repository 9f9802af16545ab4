using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;

namespace CeramicOptics.Mapping;

/// <summary>Colour and difference of one stack as tables over the thickness of one of its layers, for maps of many points.</summary>
/// <remarks>
/// L*a*b* is a cubic between nodes (Catmull-Rom inside, a parabola at the ends), the largest difference over illuminants a straight line between
/// finer ones. Both are refined until exact evaluations between all nodes agree within 0.005, with a margin; <see cref="ErrorBound"/> tells what was
/// reached. CIEDE2000 jumps where two hues are exactly opposite; no table holds there, and the bound says so. Immutable and safe to share.
/// </remarks>
public sealed class ThicknessResponse
{
    /// <summary>Error in L*a*b* and in the difference that tables are refined to.</summary>
    public const double WantedError = 0.005;

    internal const double NarrowestMm = 0.001;

    private const int FirstNodes = 64, MostNodes = 4096, FirstSteps = 1024, MostSteps = 1 << 17;

    // The error is seen in the middle between nodes. A smooth curve is nowhere off by much more, and one with a corner, as a difference has where it
    // passes zero, by twice that at most.
    private const double Margin = 2;

    private readonly double[] _differences;
    private readonly Lab[] _colors;
    private readonly double _perStep, _perNode;

    internal ThicknessResponse(
        (double Min, double Max) rangeMm, Lab[] colors, double[] differences, double errorBound, WallRequirement requirement)
    {
        (RangeMm, _colors, _differences, ErrorBound, Requirement) = (rangeMm, colors, differences, errorBound, requirement);
        double length = rangeMm.Max - rangeMm.Min;
        (_perStep, _perNode) = ((differences.Length - 1) / length, (colors.Length - 1) / length);
    }

    /// <summary>Thicknesses that the tables cover, mm.</summary>
    public (double Min, double Max) RangeMm { get; }

    /// <summary>Largest error of the difference seen between the nodes, with its margin; that of L*a*b* is smaller still.</summary>
    public double ErrorBound { get; }

    /// <summary>What thickness is needed, with its uncertainty and cautions: the answer of <see cref="MaskingThickness"/> for this stack.</summary>
    public WallRequirement Requirement { get; }

    internal ReadOnlySpan<double> DifferenceTable => _differences;

    internal ReadOnlySpan<Lab> ColorNodes => _colors;

    internal double StepsPerMm => _perStep;

    /// <summary>Makes the tables.</summary>
    /// <param name="stack">The restoration over its stump; the thickness of the variable layer is ignored.</param>
    /// <param name="variableLayer">Position of the layer that varies, 0 at the surface.</param>
    /// <param name="rangeMm">Thicknesses to cover, 0 to 100 mm, at least 0.001 mm wide.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="conditions">Illuminants (the colour is that under the first), geometry, structural minimum; D65 and 2 degrees when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or a range outside its bounds or NaN.</exception>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    public static ThicknessResponse Compile(
        LayerStack stack, int variableLayer, (double Min, double Max) rangeMm, MaskingReference reference, ColorCriterion criterion, ViewingConditions? conditions = null)
    {
        Guard.NotNull(stack);
        Guard.InRange(variableLayer, 0, stack.Layers.Count - 1);
        Guard.ThicknessRange(rangeMm, NarrowestMm);
        ViewingConditions viewing = conditions ?? ViewingConditions.Default;
        MaskingResult masking = MaskingThickness.Find(stack, variableLayer, rangeMm, reference, criterion, viewing with { ChecksModel = false });
        StackJudge judge = new(stack, variableLayer, reference, criterion, viewing, new BoundaryCache());
        (Lab[][] colors, Lab[][] references, double colorError) = ColorTables(judge, variableLayer, rangeMm);
        double length = rangeMm.Max - rangeMm.Min;

        double Difference(double mm)
        {
            double worst = 0, at = (mm - rangeMm.Min) / length;
            for (int c = 0; c < colors.Length; c++)
            {
                worst = Math.Max(worst, criterion.Difference(Interpolate(references[c], at * (references[c].Length - 1)), Interpolate(colors[c], at * (colors[c].Length - 1))));
            }

            return worst;
        }

        double[] table = [.. Enumerable.Range(0, FirstSteps + 1).Select(i => Difference(rangeMm.Min + (length * i / FirstSteps)))];
        while (true)
        {
            // The middles become nodes of the next table, so nothing is evaluated twice.
            int steps = table.Length - 1;
            double[] finer = new double[(2 * steps) + 1];
            double worst = 0;
            for (int i = 0; i < steps; i++)
            {
                double middle = Difference(rangeMm.Min + (length * (i + 0.5) / steps));
                (finer[2 * i], finer[(2 * i) + 1]) = (table[i], middle);
                worst = Math.Max(worst, Math.Abs(middle - ((table[i] + table[i + 1]) / 2)));
            }

            finer[2 * steps] = table[steps];

            // A unit of L*a*b* changes a difference by 3 at most for near colours; both colour and reference are tables.
            double bound = (Margin * worst) + (2 * 3 * colorError);
            if (bound <= WantedError || 2 * steps > MostSteps)
            {
                return new ThicknessResponse(rangeMm, colors[0], table, bound, WallRequirement.From(masking, viewing.StructuralMinimumMm));
            }

            table = finer;
        }
    }

    /// <summary>Colour under the first illuminant at one thickness.</summary>
    /// <param name="thicknessMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public Lab ColorAt(double thicknessMm)
    {
        Guard.InRange(thicknessMm, RangeMm.Min, RangeMm.Max, "mm");
        return ColorUnchecked(thicknessMm);
    }

    /// <summary>Largest difference over illuminants at one thickness.</summary>
    /// <param name="thicknessMm">Thickness inside the range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside the range or NaN.</exception>
    public double DifferenceAt(double thicknessMm)
    {
        Guard.InRange(thicknessMm, RangeMm.Min, RangeMm.Max, "mm");
        return Difference(_differences, RangeMm.Min, _perStep, thicknessMm);
    }

    /// <summary>The straight line between two steps of a table of differences; NaN for NaN and outside the table.</summary>
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

    internal Lab ColorUnchecked(double thicknessMm) => Interpolate(_colors, (thicknessMm - RangeMm.Min) * _perNode);

    // Colours and references by colorimeter, with as many nodes as the wanted error needs.
    private static (Lab[][] Colors, Lab[][] References, double Error) ColorTables(StackJudge judge, int variableLayer, (double Min, double Max) rangeMm)
    {
        int lights = judge.Tables.Length;
        double[] layers = judge.ThicknessesMm;

        (Lab[] Colors, Lab[] References) At(double share)
        {
            Span<Xyz> colors = stackalloc Xyz[lights], references = stackalloc Xyz[lights];
            layers[variableLayer] = rangeMm.Min + ((rangeMm.Max - rangeMm.Min) * share);
            judge.Evaluate(layers, 0, colors, references);
            (Lab[] some, Lab[] others) = (new Lab[lights], new Lab[lights]);
            for (int c = 0; c < lights; c++)
            {
                (some[c], others[c]) = (Lab.FromXyz(colors[c], judge.Tables[c].White), Lab.FromXyz(references[c], judge.Tables[c].White));
            }

            return (some, others);
        }

        List<(Lab[] Colors, Lab[] References)> nodes = [.. Enumerable.Range(0, FirstNodes + 1).Select(i => At(i / (double)FirstNodes))];
        while (true)
        {
            int count = nodes.Count - 1;
            List<(Lab[] Colors, Lab[] References)> middles = [.. Enumerable.Range(0, count).Select(i => At((i + 0.5) / count))];
            Lab[][] colors = [.. Enumerable.Range(0, lights).Select(c => (Lab[])[.. nodes.Select(node => node.Colors[c])])];
            Lab[][] references = [.. Enumerable.Range(0, lights).Select(c => (Lab[])[.. nodes.Select(node => node.References[c])])];
            double worst = 0;
            for (int i = 0; i < count; i++)
            {
                for (int c = 0; c < lights; c++)
                {
                    worst = Math.Max(worst, ColorDifference.Cie76(middles[i].Colors[c], Interpolate(colors[c], i + 0.5)));
                    worst = Math.Max(worst, ColorDifference.Cie76(middles[i].References[c], Interpolate(references[c], i + 0.5)));
                }
            }

            // A tenth of the wanted error leaves the rest to the table of differences.
            if (2 * 3 * Margin * worst <= WantedError / 10 || 2 * count > MostNodes)
            {
                return (colors, references, Margin * worst);
            }

            nodes = [.. nodes.Zip(middles, (node, middle) => (IEnumerable<(Lab[], Lab[])>)[node, middle]).SelectMany(pair => pair), nodes[count]];
        }
    }

    // Cubic through the two nodes beside, with slopes from their neighbours.
    private static Lab Interpolate(Lab[] nodes, double at)
    {
        int last = nodes.Length - 1, left = Math.Max(0, Math.Min((int)at, last - 1));
        double f = at - left, g = 1 - f;
        Lab one = nodes[left], two = nodes[left + 1];

        // Beyond an end the parabola through the three nodes there goes on.
        Lab before = left > 0 ? nodes[left - 1] : Beyond(one, two, nodes[left + 2]);
        Lab after = left < last - 1 ? nodes[left + 2] : Beyond(two, one, nodes[left - 1]);
        double fromBefore = -0.5 * f * g * g, fromOne = (g * g * (1 + (2 * f))) - (0.5 * -f * f * g), fromTwo = (f * f * (1 + (2 * g))) - (0.5 * -g * g * f), fromAfter = -0.5 * g * f * f;
        return new Lab(
            (fromBefore * before.L) + (fromOne * one.L) + (fromTwo * two.L) + (fromAfter * after.L),
            (fromBefore * before.A) + (fromOne * one.A) + (fromTwo * two.A) + (fromAfter * after.A),
            (fromBefore * before.B) + (fromOne * one.B) + (fromTwo * two.B) + (fromAfter * after.B));
    }

    private static Lab Beyond(Lab first, Lab second, Lab third) => new(
        (3 * first.L) - (3 * second.L) + third.L, (3 * first.A) - (3 * second.A) + third.A, (3 * first.B) - (3 * second.B) + third.B);
}
