using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>
/// Largest colour difference over the lights of one zone, as a function of the thickness of the wall. It is computed
/// only here.
/// </summary>
/// <remarks>Immutable; evaluations allocate nothing.</remarks>
internal sealed class ZoneComparison
{
    private const double SlopeStepMm = 1e-4;

    private readonly ColorCurve _colors;
    private readonly ColorCurve? _references;
    private readonly Lab[]? _targets, _fixed;
    private readonly double[]? _fixedXyz;

    public ZoneComparison(CompiledWall wall, Zone zone)
    {
        (Wall, Zone) = (wall, zone);
        Restoration restoration = wall.Restoration;
        ViewingConditions viewing = restoration.Viewing;
        wall.RequireRoom(zone);
        StackResponse response = wall.Over(zone.Stump);
        Response = response;
        Criterion = restoration.Criterion;
        Tables = TablesOf(viewing, response);
        Axis = response.Axes[0];
        _colors = ColorCurve.Of(Axis, response.AtNodes(zone.Stump), Tables);
        if (zone.Reference is Target target)
        {
            _targets = _fixed = target.ColorsUnder(viewing.Colorimeters, response.Grid, viewing.Geometry);
            return;
        }

        if (zone.Reference == MaskingReference.SelfBacked && response.IsInfiniteConstant(wall.Core))
        {
            double[] infinite = response.InfiniteAtNodes(wall.Core);
            _fixed = [.. Tables.Select(table => table.ToLab(infinite.AsSpan(0, response.Grid.Count)))];
            _fixedXyz = [.. Tables.Select(table => table.ToXyz(infinite.AsSpan(0, response.Grid.Count))).SelectMany(
                xyz => (double[])[xyz.X, xyz.Y, xyz.Z])];
            return;
        }

        ReferenceResponse = ((MaskingReference)zone.Reference).Substrate is { } good ? wall.Over(good) : null;
        _references = ReferenceResponse is null
            ? ColorCurve.Of(Axis, response.InfiniteAtNodes(wall.Core), Tables)
            : ColorCurve.Of(
                ReferenceResponse.Axes[0], ReferenceResponse.AtNodes(((MaskingReference)zone.Reference).Substrate!),
                Tables);
    }

    public CompiledWall Wall { get; }

    public Zone Zone { get; }

    public StackResponse Response { get; }

    /// <summary>The compiled stack of a reference over a good substrate; null for other references.</summary>
    public StackResponse? ReferenceResponse { get; }

    /// <summary>The wall over the stump of the zone with one input moved at a time.</summary>
    public IReadOnlyList<WallNeighbour> Neighbours => Wall.NeighboursOver(Zone.Stump);

    /// <summary>The same of the reference, in the same order; those of the wall for a target.</summary>
    public IReadOnlyList<WallNeighbour> ReferenceNeighbours =>
        ReferenceResponse is null || ReferenceResponse == Response
            ? Neighbours
            : Wall.NeighboursOver(((MaskingReference)Zone.Reference).Substrate!);

    public ColorCriterion Criterion { get; }

    public IReadOnlyList<WeightingTable> Tables { get; }

    public Chebyshev Axis { get; }

    public ThicknessRange Range => Wall.Range;

    public int Lights => Tables.Count;

    /// <summary>Colours of a target; null for a reference that moves with the restoration.</summary>
    public IReadOnlyList<Lab>? Targets => _targets;

    /// <summary>Largest difference over the lights at one thickness inside the range.</summary>
    public double Difference(double wallMm) => Difference(wallMm, out _);

    public double Difference(double wallMm, out int light)
    {
        Span<Lab> colors = stackalloc Lab[Lights], references = stackalloc Lab[Lights];
        Evaluate(wallMm, colors, references);
        return Largest(Criterion, references, colors, out light);
    }

    /// <summary>By how much the difference changes for a mm of wall, whatever the sign, at one thickness.</summary>
    public double SteepnessAt(double wallMm)
    {
        double low = Math.Max(Range.MinMm, wallMm - SlopeStepMm), high = Math.Min(Range.MaxMm, wallMm + SlopeStepMm);
        return Math.Abs(Difference(high) - Difference(low)) / (high - low);
    }

    /// <summary>Colours and their references at one thickness, one for each light.</summary>
    public void Evaluate(double wallMm, Span<Lab> colors, Span<Lab> references)
    {
        Span<double> xyz = stackalloc double[3 * Lights], others = stackalloc double[3 * Lights];
        Tristimulus(wallMm, xyz, others);
        for (int c = 0; c < Lights; c++)
        {
            colors[c] = ToLab(xyz, c);
            references[c] = _fixed is null ? ToLab(others, c) : _fixed[c];
        }
    }

    /// <summary>
    /// Tristimulus values of the colours and, unless there is a target, of their references: X, Y, Z of each light.
    /// </summary>
    public void Tristimulus(double wallMm, Span<double> colors, Span<double> references)
    {
        _colors.Evaluate(Axis.At(wallMm), colors);
        _references?.Evaluate(_references.Axis.At(wallMm), references);
        _fixedXyz?.AsSpan().CopyTo(references);
    }

    /// <summary>All that is known at one thickness, kept for bounds.</summary>
    public ComparisonPoint Sample(double wallMm)
    {
        double[] colors = new double[3 * Lights], references = new double[3 * Lights];
        Tristimulus(wallMm, colors, references);
        Lab[] labs = new Lab[Lights], others = new Lab[Lights];
        double[] differences = new double[Lights];
        for (int c = 0; c < Lights; c++)
        {
            (labs[c], others[c]) = (ToLab(colors, c), _fixed is null ? ToLab(references, c) : _fixed[c]);
            differences[c] = Criterion.Difference(others[c], labs[c]);
        }

        return new ComparisonPoint(
            wallMm, Axis.At(wallMm), _references?.Axis.At(wallMm) ?? 0, colors, references, labs, others, differences);
    }

    /// <summary>The limiting light at one thickness.</summary>
    public LimitingCase At(double wallMm)
    {
        Span<Lab> colors = stackalloc Lab[Lights], references = stackalloc Lab[Lights];
        Evaluate(wallMm, colors, references);
        double difference = Largest(Criterion, references, colors, out int light);
        return new LimitingCase(
            wallMm, difference, Zone.Stump, Wall.Restoration.Viewing.Colorimeters[light], references[light],
            colors[light]);
    }

    /// <summary>
    /// Largest difference over the lights of another spectrum in this zone, such as that of a stained wall, from the
    /// targets.
    /// </summary>
    public double Difference(ReadOnlySpan<double> reflectances)
    {
        Span<Lab> colors = stackalloc Lab[Lights];
        Colors(reflectances, colors);
        return Largest(Criterion, _targets, colors, out _);
    }

    /// <summary>The limiting light of such a spectrum; the thickness is only carried along.</summary>
    public LimitingCase Of(ReadOnlySpan<double> reflectances, double wallMm)
    {
        Span<Lab> colors = stackalloc Lab[Lights];
        Colors(reflectances, colors);
        double difference = Largest(Criterion, _targets, colors, out int light);
        return new LimitingCase(
            wallMm, difference, Zone.Stump, Wall.Restoration.Viewing.Colorimeters[light], _targets![light],
            colors[light]);
    }

    /// <summary>Bound on the error of the difference at one thickness that comes from the compiled stack.</summary>
    public double ErrorAt(double wallMm)
    {
        Span<double> xyz = stackalloc double[3 * Lights], others = stackalloc double[3 * Lights];
        Tristimulus(wallMm, xyz, others);
        double error = 0;
        for (int c = 0; c < Lights; c++)
        {
            double move = ColorError.Of(Response.ErrorBound, xyz.Slice(3 * c, 3), Tables[c]);
            move += _targets is null
                ? ColorError.Of((ReferenceResponse ?? Response).ErrorBound, others.Slice(3 * c, 3), Tables[c])
                : 0;
            error = Math.Max(error, ColorMove.Bound(Criterion, ToLab(xyz, c), _targets?[c] ?? ToLab(others, c), move));
        }

        return error;
    }

    /// <summary>Numbers between which the difference stays from one thickness to another.</summary>
    /// <remarks>
    /// A function whose second derivative is at most M stays within M h² / 8 of the straight line between two points h
    /// apart. So XYZ lie in boxes, and so do L*a*b*; a difference formula changes no faster than a constant times the
    /// CIELAB distance moved.
    /// </remarks>
    public (double Lower, double Upper) Bounds(ComparisonPoint a, ComparisonPoint b)
    {
        double lower = 0, upper = 0;
        for (int c = 0; c < Lights; c++)
        {
            Xyz white = Tables[c].White;
            ColorMove color = ColorMove.Between(
                a.Labs[c], b.Labs[c], a.Colors.AsSpan(3 * c, 3), b.Colors.AsSpan(3 * c, 3),
                _colors.Curvatures.Slice(3 * c, 3), b.X - a.X, white);
            ColorMove reference = _references is null ? default : ColorMove.Between(
                a.Others[c], b.Others[c], a.References.AsSpan(3 * c, 3), b.References.AsSpan(3 * c, 3),
                _references.Curvatures.Slice(3 * c, 3),
                b.ReferenceX - a.ReferenceX, white);
            (double low, double high) = ColorMove.Bounds(
                Criterion.Formula, a.Differences[c], b.Differences[c], a.Labs[c], b.Labs[c], a.Others[c], b.Others[c],
                color, reference);
            (lower, upper) = (Math.Max(lower, low), Math.Max(upper, high));
        }

        return (lower, upper);
    }

    /// <summary>The largest difference over lights, and the light where it is.</summary>
    public static double Largest(
        ColorCriterion criterion, ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> colors, out int light)
    {
        double largest = criterion.Difference(references[0], colors[0]);
        light = 0;
        for (int c = 1; c < colors.Length; c++)
        {
            double difference = criterion.Difference(references[c], colors[c]);
            if (difference > largest)
            {
                (largest, light) = (difference, c);
            }
        }

        return largest;
    }

    /// <summary>The largest difference over lights at several points: colours by light, then point.</summary>
    public static void Largest(
        ColorCriterion criterion, ReadOnlySpan<Lab> references, ReadOnlySpan<Lab> colors, Span<double> destination)
    {
        Span<double> each = stackalloc double[destination.Length];
        criterion.Differences(references.Slice(0, each.Length), colors.Slice(0, each.Length), destination);
        for (int from = each.Length; from < colors.Length; from += each.Length)
        {
            criterion.Differences(references.Slice(from, each.Length), colors.Slice(from, each.Length), each);
            for (int k = 0; k < each.Length; k++)
            {
                destination[k] = Math.Max(destination[k], each[k]);
            }
        }
    }

    public static IReadOnlyList<WeightingTable> TablesOf(ViewingConditions viewing, StackResponse response) =>
        [.. viewing.Colorimeters.Select(colorimeter => colorimeter.Weighting(response.Grid))];

    private void Colors(ReadOnlySpan<double> reflectances, Span<Lab> colors)
    {
        for (int c = 0; c < Lights; c++)
        {
            colors[c] = Lab.FromXyz(Tables[c].SumInLanes(reflectances), Tables[c].White);
        }
    }

    public Lab ToLab(ReadOnlySpan<double> xyz, int light) =>
        Lab.FromXyz(new Xyz(xyz[3 * light], xyz[(3 * light) + 1], xyz[(3 * light) + 2]), Tables[light].White);
}
