using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;

namespace CeramicOptics.Decisions.Masking;

/// <summary>What is not known of the anisotropy of scattering, as a thickness of the wall over a spot.</summary>
/// <remarks>
/// To first order at the thickness by colour and the distance where the spot shows most. It is independent of all other
/// inputs, so its margin and theirs add by their squares.
/// </remarks>
internal sealed class SpotAnisotropy
{
    private const double StepMm = 0.01;

    private readonly double _byColorMm, _uncertainty, _spare, _slopePerMm, _maximumMm;

    public SpotAnisotropy(SpotCurves curves, ZoneComparison zone, double byColorMm)
    {
        int worst = curves.Worst(byColorMm);
        double low = Math.Max(zone.Range.MinMm, byColorMm - StepMm);
        double high = Math.Min(zone.Range.MaxMm, byColorMm + StepMm);
        (_byColorMm, _maximumMm) = (byColorMm, zone.Range.MaxMm);
        _uncertainty = curves.FromAnisotropy(worst, byColorMm);
        _spare = Math.Max(0, zone.Criterion.Limit - curves.Difference(worst, byColorMm));
        _slopePerMm = Math.Max(0, (curves.Difference(worst, low) - curves.Difference(worst, high)) / (high - low));
    }

    /// <summary>A reliable thickness with the anisotropy among what is uncertain; null beyond the range.</summary>
    public double? Reliable(double? otherwiseMm, double share)
    {
        double missing = Math.Max(0, (NormalQuantile.Of(share) * _uncertainty) - _spare);
        if (otherwiseMm is not double mm || missing == 0)
        {
            return otherwiseMm;
        }

        double others = mm - _byColorMm, own = missing / _slopePerMm;
        double reliable = _byColorMm + Math.Sqrt((others * others) + (own * own));
        return reliable <= _maximumMm ? reliable : null;
    }

    /// <summary>Standard uncertainty of the thickness by colour, mm; null where there is none.</summary>
    public double? Uncertainty(double? otherwiseMm) => otherwiseMm is double mm && _slopePerMm > 0
        ? Math.Sqrt((mm * mm) + Math.Pow(_uncertainty / _slopePerMm, 2))
        : otherwiseMm;
}
