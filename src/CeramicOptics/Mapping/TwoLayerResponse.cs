using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Selection;

namespace CeramicOptics.Mapping;

/// <summary>Colour and difference of one stack as tables over the thicknesses of two of its layers, such as a veneer on a core, for maps of many points.</summary>
/// <remarks>
/// Exact colours at Chebyshev points give L*a*b* as polynomials; from these, colour and largest difference over illuminants are tabled on cells
/// that are divided until halving moves no value by more than the wanted error. <see cref="ErrorBound"/> tells what was reached. CIEDE2000 jumps where
/// two hues are exactly opposite; no table holds there, and the bound says so. Immutable and safe to share.
/// </remarks>
public sealed class TwoLayerResponse
{
    // Lower thicknesses tried, and upper ones for which the smallest lower one is kept.
    private const int LowerSteps = 1024, UpperSteps = 256;

    private readonly CellTable _colors, _differences;
    private readonly double _upperPerMm, _lowerPerMm;
    private readonly Lazy<double[]> _lowerMinimaMm;

    internal TwoLayerResponse(
        (double Min, double Max) upperRangeMm, (double Min, double Max) lowerRangeMm, CellTable colors, CellTable differences, double errorBound, WallRequirement requirement)
    {
        (UpperRangeMm, LowerRangeMm, _colors, _differences, ErrorBound, Requirement) = (upperRangeMm, lowerRangeMm, colors, differences, errorBound, requirement);
        (_upperPerMm, _lowerPerMm) = (1 / (upperRangeMm.Max - upperRangeMm.Min), 1 / (lowerRangeMm.Max - lowerRangeMm.Min));
        _lowerMinimaMm = new Lazy<double[]>(LowerMinima);
    }

    /// <summary>Thicknesses of the upper layer that the tables cover, mm.</summary>
    public (double Min, double Max) UpperRangeMm { get; }

    /// <summary>Thicknesses of the lower layer that the tables cover, mm.</summary>
    public (double Min, double Max) LowerRangeMm { get; }

    /// <summary>Largest error of the difference seen when the tables were made, with its margin; that of L*a*b* is no larger than what was wanted.</summary>
    public double ErrorBound { get; }

    internal WallRequirement Requirement { get; }

    internal CellTable DifferenceCells => _differences;

    internal CellTable ColorCells => _colors;

    /// <summary>Makes the tables.</summary>
    /// <param name="stack">The restoration over its stump; the thicknesses of the two layers are ignored.</param>
    /// <param name="upperLayer">Position of the upper layer that varies, 0 at the surface.</param>
    /// <param name="upperRangeMm">Its thicknesses to cover, 0 to 100 mm, at least 0.001 mm wide.</param>
    /// <param name="lowerLayer">Position of the lower layer that varies, below the upper one.</param>
    /// <param name="lowerRangeMm">Its thicknesses to cover, likewise.</param>
    /// <param name="reference">What the colour is compared with; for <see cref="MaskingReference.SelfBacked"/> the lower layer is infinitely thick.</param>
    /// <param name="criterion">Difference that is good enough.</param>
    /// <param name="conditions">Illuminants (the colour is that under the first), geometry, and the structural minimum of both layers together; D65 and 2 degrees when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or a range outside its bounds or NaN.</exception>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    public static TwoLayerResponse Compile(
        LayerStack stack, int upperLayer, (double Min, double Max) upperRangeMm, int lowerLayer, (double Min, double Max) lowerRangeMm,
        MaskingReference reference, ColorCriterion criterion, ViewingConditions? conditions = null)
    {
        Guard.NotNull(stack);
        Guard.InRange(upperLayer, 0, stack.Layers.Count - 2);
        Guard.InRange(lowerLayer, upperLayer + 1, stack.Layers.Count - 1);
        Guard.ThicknessRange(upperRangeMm, ThicknessResponse.NarrowestMm);
        Guard.ThicknessRange(lowerRangeMm, ThicknessResponse.NarrowestMm);
        ViewingConditions viewing = conditions ?? ViewingConditions.Default;
        StackJudge judge = new(stack, lowerLayer, reference, criterion, viewing, new BoundaryCache());
        int lights = judge.Tables.Length;
        double[] layers = judge.ThicknessesMm;
        Xyz[] colors = new Xyz[lights], references = new Xyz[lights];

        // Colours under all illuminants, then their references.
        void Sample(double x, double y, Span<double> values)
        {
            layers[upperLayer] = upperRangeMm.Min + (x * (upperRangeMm.Max - upperRangeMm.Min));
            layers[lowerLayer] = lowerRangeMm.Min + (y * (lowerRangeMm.Max - lowerRangeMm.Min));
            judge.Evaluate(layers, 0, colors, references);
            for (int c = 0; c < lights; c++)
            {
                Put(Lab.FromXyz(colors[c], judge.Tables[c].White), values.Slice(3 * c));
                Put(Lab.FromXyz(references[c], judge.Tables[c].White), values.Slice(3 * (lights + c)));
            }
        }

        // A tenth of the wanted error leaves the rest to the cells; a unit of L*a*b* changes a difference by 3 at most, and both colours may be off.
        const double perUnit = 2 * 3;
        ChebyshevSurface surface = ChebyshevSurface.Fit(Sample, 6 * lights, ThicknessResponse.WantedError / 10 / perUnit);
        SurfaceSampler sampler = new(surface, lights, criterion);
        double wanted = ThicknessResponse.WantedError - (perUnit * surface.Error);
        CellTable tabledColors = CellTable.Build(sampler.Colors, 3, wanted / Math.Sqrt(3));
        CellTable differences = CellTable.Build(sampler.Differences, 1, wanted);

        // The uncertainty of the one-variable question where the upper layer is thinnest and thickest; the larger is kept.
        ViewingConditions quick = viewing with { ChecksModel = false, StructuralMinimumMm = null };
        MaskingResult[] answers = [.. new[] { upperRangeMm.Min, upperRangeMm.Max }.Select(mm => MaskingThickness.Find(
            stack.WithThickness(upperLayer, mm), lowerLayer, lowerRangeMm, reference, criterion, quick))];
        WallRequirement requirement = WallRequirement.From(answers[0], viewing.StructuralMinimumMm) with
        {
            ThicknessStandardUncertaintyMm = answers.Max(answer => answer.ThicknessStandardUncertaintyMm),
            Cautions = Guard.Copy(answers.SelectMany(answer => answer.Cautions).Distinct()),
        };
        return new TwoLayerResponse(upperRangeMm, lowerRangeMm, tabledColors, differences, differences.ErrorBound + (perUnit * surface.Error), requirement);
    }

    /// <summary>Colour under the first illuminant at two thicknesses.</summary>
    /// <param name="upperMm">Thickness of the upper layer inside its range, mm.</param>
    /// <param name="lowerMm">Thickness of the lower layer inside its range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A thickness outside its range or NaN.</exception>
    public Lab ColorAt(double upperMm, double lowerMm)
    {
        CheckInside(upperMm, lowerMm);
        return ColorUnchecked(upperMm, lowerMm);
    }

    /// <summary>Largest difference over illuminants at two thicknesses.</summary>
    /// <param name="upperMm">Thickness of the upper layer inside its range, mm.</param>
    /// <param name="lowerMm">Thickness of the lower layer inside its range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A thickness outside its range or NaN.</exception>
    public double DifferenceAt(double upperMm, double lowerMm)
    {
        CheckInside(upperMm, lowerMm);
        return Difference(upperMm, lowerMm);
    }

    /// <summary>What the lower layer must be where the upper one has a given thickness.</summary>
    /// <param name="upperMm">Thickness of the upper layer inside its range, mm.</param>
    /// <returns>
    /// The smallest lower thickness from which on all of the range meet the criterion even if the table is off by its bound, on a grid of 1024 steps and
    /// 256 upper thicknesses (the larger of the two beside); the recommended one also brings both layers together to the structural minimum. The
    /// uncertainty is the larger of those for the thinnest and the thickest upper layer.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is outside its range or NaN.</exception>
    public WallRequirement LowerRequirementAt(double upperMm)
    {
        Guard.InRange(upperMm, UpperRangeMm.Min, UpperRangeMm.Max, "mm");
        (double optical, double recommended) = LowerMinimumAt(upperMm);
        return Requirement with { OpticalMinimumMm = double.IsNaN(optical) ? null : optical, RecommendedMinimumMm = double.IsNaN(recommended) ? null : recommended };
    }

    internal bool Covers(double upperMm, double lowerMm) =>
        upperMm >= UpperRangeMm.Min && upperMm <= UpperRangeMm.Max && lowerMm >= LowerRangeMm.Min && lowerMm <= LowerRangeMm.Max;

    /// <summary>The difference; NaN where a thickness is not covered.</summary>
    internal double Difference(double upperMm, double lowerMm) => Covers(upperMm, lowerMm)
        ? _differences.At((upperMm - UpperRangeMm.Min) * _upperPerMm, (lowerMm - LowerRangeMm.Min) * _lowerPerMm)
        : double.NaN;

    internal Lab ColorUnchecked(double upperMm, double lowerMm)
    {
        (double l, double a, double b) = _colors.ThreeAt((upperMm - UpperRangeMm.Min) * _upperPerMm, (lowerMm - LowerRangeMm.Min) * _lowerPerMm);
        return new Lab(l, a, b);
    }

    /// <summary>Smallest lower thickness by colour, and with strength; NaN where none of the range is enough.</summary>
    internal (double OpticalMm, double RecommendedMm) LowerMinimumAt(double upperMm)
    {
        double[] minima = _lowerMinimaMm.Value;
        double at = (upperMm - UpperRangeMm.Min) * _upperPerMm * UpperSteps;
        int step = Math.Min((int)at, UpperSteps - 1);

        // Math.Max gives NaN when either is.
        double optical = Math.Max(minima[step], minima[step + 1]), recommended = Math.Max(optical, (Requirement.StructuralMinimumMm ?? 0) - upperMm);
        return (optical, recommended <= LowerRangeMm.Max ? recommended : double.NaN);
    }

    private double[] LowerMinima()
    {
        double[] minima = new double[UpperSteps + 1];
        double limit = Requirement.Criterion.Limit - ErrorBound, step = (LowerRangeMm.Max - LowerRangeMm.Min) / LowerSteps;
        for (int i = 0; i <= UpperSteps; i++)
        {
            int enough = LowerSteps + 1;
            while (enough > 0 && _differences.At(i / (double)UpperSteps, (enough - 1) / (double)LowerSteps) <= limit)
            {
                enough--;
            }

            minima[i] = enough > LowerSteps ? double.NaN : LowerRangeMm.Min + (enough * step);
        }

        return minima;
    }

    private static void Put(Lab color, Span<double> values) => (values[0], values[1], values[2]) = (color.L, color.A, color.B);

    private void CheckInside(double upperMm, double lowerMm)
    {
        Guard.InRange(upperMm, UpperRangeMm.Min, UpperRangeMm.Max, "mm");
        Guard.InRange(lowerMm, LowerRangeMm.Min, LowerRangeMm.Max, "mm");
    }
}
