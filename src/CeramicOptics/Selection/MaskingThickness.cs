using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Selection;

/// <summary>How thick a layer must be so that the stump does not show.</summary>
public static class MaskingThickness
{
    // 12 streams are right to about 1e-4 in reflectance, far below what is asked of the check.
    private static readonly TransportModel Judge = new(12);

    /// <summary>The answer for the stack's own substrate.</summary>
    /// <param name="stack">The restoration; the thickness of the variable layer is ignored.</param>
    /// <param name="variableLayer">Position of the layer that varies, 0 at the surface.</param>
    /// <param name="rangeMm">Smallest and largest thickness to consider, 0 to 100 mm.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is still good enough.</param>
    /// <param name="conditions">Illuminants, geometry, structural minimum; D65 and 2 degrees when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or a range that is empty, out of bounds or NaN.</exception>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    public static MaskingResult Find(
        LayerStack stack, int variableLayer, (double Min, double Max) rangeMm, MaskingReference reference, ColorCriterion criterion, ViewingConditions? conditions = null) =>
        Find(stack, variableLayer, rangeMm, reference, criterion, [Guard.NotNull(stack).Substrate], conditions);

    /// <summary>The answer for several stumps at once: each must be masked.</summary>
    /// <param name="stack">The restoration; its substrate and the thickness of the variable layer are ignored.</param>
    /// <param name="variableLayer">Position of the layer that varies, 0 at the surface.</param>
    /// <param name="rangeMm">Smallest and largest thickness to consider, 0 to 100 mm.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Difference that is still good enough.</param>
    /// <param name="substrates">The stumps, at least one.</param>
    /// <param name="conditions">Illuminants, geometry, structural minimum; D65 and 2 degrees when null.</param>
    /// <returns>
    /// The smallest thickness from which on the worst difference stays within the limit up to the end of the range, all crossings
    /// (to 1e-9 mm; a touch shorter than 0.0001 mm may be missed), the limiting stump and illuminant, uncertainty and cautions.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or a range that is empty, out of bounds or NaN.</exception>
    /// <exception cref="ArgumentException">No stump, or grids differ.</exception>
    public static MaskingResult Find(
        LayerStack stack,
        int variableLayer,
        (double Min, double Max) rangeMm,
        MaskingReference reference,
        ColorCriterion criterion,
        IEnumerable<Substrate> substrates,
        ViewingConditions? conditions = null)
    {
        return Find(Curve(stack, variableLayer, rangeMm, reference, criterion, substrates, conditions), rangeMm);
    }

    /// <summary>The answer for a curve that is there already.</summary>
    internal static MaskingResult Find(DifferenceCurve curve, (double Min, double Max) rangeMm)
    {
        (ColorCriterion criterion, ViewingConditions conditions) = (curve.Criterion, curve.Conditions);
        Material material = curve.Stack.Layers[curve.VariableLayer].Material;
        CurvePoint first = curve.Evaluate(rangeMm.Min), last = curve.Evaluate(rangeMm.Max);
        List<Crossing> crossings = CurveSearch.Crossings(curve, first, last);

        bool maskedAtEnd = last.Worst <= criterion.Limit;
        MaskingOutcome outcome = !maskedAtEnd ? MaskingOutcome.NotMasked
            : crossings.Count == 0 ? MaskingOutcome.MaskedThroughout : MaskingOutcome.MaskedFrom;
        double? optical = outcome switch
        {
            MaskingOutcome.NotMasked => null,
            MaskingOutcome.MaskedThroughout => rangeMm.Min,
            _ => crossings[crossings.Count - 1].ThicknessMm,
        };
        double? recommended = optical is null ? null : Math.Max(optical.Value, conditions.StructuralMinimumMm ?? 0);
        recommended = recommended > rangeMm.Max ? null : recommended;

        CurvePoint limiting = optical is null ? last : curve.Evaluate(optical.Value);
        double uncertainty = curve.StandardUncertainty(limiting);
        double? departure = conditions.ChecksModel
            ? ModelDeparture(curve, curve.Describe(curve.Evaluate(recommended ?? rangeMm.Max)))
            : null;
        return new MaskingResult
        {
            Outcome = outcome,
            OpticalMinimumMm = optical,
            RecommendedMinimumMm = recommended,
            ThicknessStandardUncertaintyMm = outcome == MaskingOutcome.MaskedFrom && material.Uncertainty is not null
                ? ThicknessUncertainty(curve, limiting, rangeMm, uncertainty)
                : null,
            DifferenceStandardUncertainty = uncertainty,
            Limiting = curve.Describe(limiting),
            Best = curve.Describe(CurveSearch.Minimum(curve, first, last)),
            Crossings = crossings.AsReadOnly(),
            ModelDeparture = departure,
            RangeMm = rangeMm,
            Criterion = criterion,
            Reference = curve.Reference,
            Cautions = CautionsFor(curve, material, optical, departure),
        };
    }

    /// <summary>The worst difference over stumps and illuminants at each of several thicknesses, for a chart.</summary>
    /// <param name="stack">The restoration; its substrate and the thickness of the variable layer are ignored.</param>
    /// <param name="variableLayer">Position of the layer that varies, 0 at the surface.</param>
    /// <param name="thicknessesMm">Thicknesses, 0 to 100 mm, at least one.</param>
    /// <param name="reference">What the colour is compared with.</param>
    /// <param name="criterion">Gives the difference formula.</param>
    /// <param name="substrates">The stumps, at least one.</param>
    /// <param name="conditions">Illuminants and geometry; D65 and 2 degrees when null.</param>
    public static IReadOnlyList<WorstCase> WorstDifferences(
        LayerStack stack,
        int variableLayer,
        IEnumerable<double> thicknessesMm,
        MaskingReference reference,
        ColorCriterion criterion,
        IEnumerable<Substrate> substrates,
        ViewingConditions? conditions = null)
    {
        IReadOnlyList<double> thicknesses = Guard.Copy(thicknessesMm, minimumCount: 1);
        DifferenceCurve curve = Curve(
            stack, variableLayer, (0, Layer.MaximumThicknessMm), reference, criterion, substrates, conditions);
        return Guard.Copy(thicknesses.Select(thickness => curve.Describe(curve.Evaluate(thickness))));
    }

    /// <summary>The curve of a question, its arguments checked.</summary>
    internal static DifferenceCurve Curve(
        LayerStack stack,
        int variableLayer,
        (double Min, double Max) rangeMm,
        MaskingReference reference,
        ColorCriterion criterion,
        IEnumerable<Substrate> substrates,
        ViewingConditions? conditions)
    {
        Guard.NotNull(stack);
        Guard.InRange(variableLayer, 0, stack.Layers.Count - 1);
        Guard.ThicknessRange(rangeMm);
        return new DifferenceCurve(
            stack, variableLayer, Guard.Copy(substrates, minimumCount: 1), Guard.NotNull(reference), Guard.NotNull(criterion), conditions ?? ViewingConditions.Default);
    }

    // u(t) = u(difference) / |d difference / dt| at the crossing.
    private static double? ThicknessUncertainty(DifferenceCurve curve, CurvePoint at, (double Min, double Max) rangeMm, double uncertainty)
    {
        double low = Math.Max(rangeMm.Min, at.ThicknessMm - 1e-4), high = Math.Min(rangeMm.Max, at.ThicknessMm + 1e-4);
        (int s, int c) = at.WorstAt;
        double change = curve.Evaluate(high).Differences[s, c] - curve.Evaluate(low).Differences[s, c];
        return change == 0 ? null : uncertainty * (high - low) / Math.Abs(change);
    }

    private static IReadOnlyList<Caution> CautionsFor(
        DifferenceCurve curve, Material material, double? optical, double? departure)
    {
        List<Caution> cautions = [Caution.Strength, Caution.ToothReduction];
        if (curve.Conditions.StructuralMinimumMm is double structural && structural > (optical ?? double.PositiveInfinity))
        {
            cautions.Add(Caution.StructuralMinimum(structural));
        }

        if (departure is double off && Math.Abs(off) > ColorCriterion.ImperceptibleBy(curve.Criterion.Formula).Limit)
        {
            cautions.Add(new Caution(
                CautionKind.TwoFluxInaccurate,
                FormattableString.Invariant($"Exact radiative transfer with the same constants gives a difference {Math.Abs(off):0.0} {(off > 0 ? "larger" : "smaller")} here; two-flux theory is not reliable for so thin or clear a layer.")));
        }

        cautions.AddRange(Caution.OfShortSpectra(curve.Tables));
        cautions.AddRange(Caution.OfEstimates(curve.Substrates, [curve.Reference], curve.Conditions.Colorimeters));
        if (material.Uncertainty is null)
        {
            cautions.Add(new Caution(
                CautionKind.UncertaintyIncomplete,
                $"The uncertainty of K and S of '{material.Name}' is not known, so none is stated for the thickness."));
        }

        return cautions.AsReadOnly();
    }

    // The same comparison by the exact model: stack over the limiting stump against the reference.
    private static double ModelDeparture(DifferenceCurve curve, WorstCase at)
    {
        (MaskingReference reference, LayerStack stack, int variableLayer) = (curve.Reference, curve.Stack, curve.VariableLayer);
        MeasurementGeometry geometry = curve.Conditions.Geometry;
        LayerStack there = stack.WithThickness(variableLayer, at.ThicknessMm).WithSubstrate(at.Substrate);
        LayerStack? moving = reference.Substrate is not null ? there.WithSubstrate(reference.Substrate)
            : reference == MaskingReference.SelfBacked ? stack.WithThickness(variableLayer, Layer.MaximumThicknessMm).WithSubstrate(at.Substrate)
            : null;
        Lab exact = at.Colorimeter.ToLab(Judge.Reflectance(there, geometry));
        Lab exactReference = moving is null ? at.Reference : at.Colorimeter.ToLab(Judge.Reflectance(moving, geometry));
        return curve.Criterion.Difference(exactReference, exact) - at.Difference;
    }
}
