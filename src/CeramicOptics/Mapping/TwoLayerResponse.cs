using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>Colour and difference of one zone as tables over the thicknesses of veneer and core, for maps of many
/// points.</summary>
/// <remarks>
/// The compiled stack gives tristimulus values as polynomials of both thicknesses; from these, colour and largest
/// difference over illuminants are tabled on cells that are divided until halving moves no value by more than the
/// wanted error. <see cref="ErrorBound"/> says what was reached. CIEDE2000 jumps where two hues are exactly opposite;
/// no table is good there, and the bound says so. Immutable and safe to share.
/// </remarks>
public sealed class TwoLayerResponse
{
    private readonly CellTable _colors, _differences;
    private readonly double _veneerPerMm, _corePerMm;
    private readonly Lazy<CoreMinima> _minima;

    internal TwoLayerResponse(
        ThicknessRange veneer,
        ThicknessRange core,
        CellTable colors,
        CellTable differences,
        double errorBound,
        CoreRequirements requirements)
    {
        (VeneerRange, CoreRange, _colors, _differences) = (veneer, core, colors, differences);
        (ErrorBound, Requirements) = (errorBound, requirements);
        (_veneerPerMm, _corePerMm) = (1 / (veneer.MaxMm - veneer.MinMm), 1 / (core.MaxMm - core.MinMm));
        _minima = new Lazy<CoreMinima>(() => new CoreMinima(
            differences, requirements.Criterion.Limit - errorBound, veneer, core, requirements));
    }

    /// <summary>Thicknesses of the veneer that the tables cover.</summary>
    public ThicknessRange VeneerRange { get; }

    /// <summary>Thicknesses of the core that the tables cover.</summary>
    public ThicknessRange CoreRange { get; }

    /// <summary>
    /// Bound on the error of the difference, from what was seen when the tables were made and from the compiled stack;
    /// that of L*a*b* is no larger than what was wanted.
    /// </summary>
    public double ErrorBound { get; }

    internal CoreRequirements Requirements { get; }

    internal CellTable DifferenceCells => _differences;

    internal CellTable ColorCells => _colors;

    /// <summary>Makes the tables of one zone.</summary>
    /// <param name="restoration">
    /// A restoration with a veneer, whose own thickness or share is ignored, as is the range of the wall. Colours are
    /// those under its first illuminant; for <see cref="MaskingReference.SelfBacked"/> the core is infinitely thick.
    /// </param>
    /// <param name="zone">The zone, one of the restoration's or another; its available thickness is ignored.</param>
    /// <param name="veneer">Thicknesses of the veneer to cover, 0.01 to 10 mm, at least 0.001 mm wide.</param>
    /// <param name="core">Thicknesses of the core to cover, at least 0.001 mm wide; with the veneer at most 100
    /// mm.</param>
    /// <param name="masking">What reliable means; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">
    /// No veneer, grids or models differ, or a target was read in another geometry.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A range is outside its bounds.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static TwoLayerResponse Compile(
        Restoration restoration,
        Zone zone,
        ThicknessRange veneer,
        ThicknessRange core,
        MaskingOptions? masking = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Material material = Guard.NotNull(restoration).Veneer?.Material
            ?? throw new ArgumentException(
                "The restoration has no veneer; use ThicknessResponse for a monolithic wall.", nameof(restoration));
        Guard.NotNull(zone);
        ThicknessResponse.RequireWide(veneer, "veneer's range");
        ThicknessResponse.RequireWide(core, "core's range");

        // The same restoration with a veneer of one thickness.
        Restoration Under(double veneerMm)
        {
            ThicknessRange wall = new(veneerMm + core.MinMm, veneerMm + core.MaxMm);
            return restoration.WithZones([zone.WithWall(wall.MaxMm)]) with
            {
                Veneer = Veneer.OfThickness(material, veneerMm),
                WallRange = wall,
            };
        }

        Restoration thickest = Under(veneer.MaxMm);
        TwoLayerComparison comparison = new(thickest, zone, veneer, core, cancellation);
        progress?.Report(0.1);
        MaskingOptions options = masking ?? new MaskingOptions();
        CoreStrength strength = restoration.CoreStrengthIn(zone);
        List<MinimumThickness> minima = [];
        for (int i = 0; i < CoreRequirements.Count; i++)
        {
            double veneerMm = CoreRequirements.VeneerMm(veneer, i);
            minima.Add(CoreMinimum(Under(veneerMm), veneerMm, core, strength, options, cancellation));
            progress?.Report(0.1 + (0.4 * (i + 1) / CoreRequirements.Count));
        }

        CoreRequirements requirements = new(
            zone.Name, restoration.Criterion, strength, options.Share, zone.Reference is Target, Guard.Copy(minima),
            Caution.Of(thickest, comparison.Tables));
        double compiled = (from i in Enumerable.Range(0, 9)
                           from j in Enumerable.Range(0, 9)
                           select comparison.ErrorAt(veneer.At(i / 8.0), core.At(j / 8.0))).Max();
        double wanted = ThicknessResponse.WantedError - Math.Min(compiled, ThicknessResponse.WantedError / 2);
        CellTable colors = CellTable.Build(
            (x, y, values) =>
            {
                Lab color = comparison.Color(veneer.At(x), core.At(y));
                (values[0], values[1], values[2]) = (color.L, color.A, color.B);
            },
            3, wanted / Math.Sqrt(3), done => progress?.Report(0.5 + (0.1 * done)), cancellation);
        CellTable differences = CellTable.Build(
            (x, y, values) => values[0] = comparison.Difference(veneer.At(x), core.At(y)),
            1, wanted, done => progress?.Report(0.6 + (0.4 * done)), cancellation);
        return new TwoLayerResponse(veneer, core, colors, differences, differences.ErrorBound + compiled, requirements);
    }

    /// <summary>Colour under the first illuminant at two thicknesses.</summary>
    /// <param name="veneerMm">Thickness of the veneer inside its range, mm.</param>
    /// <param name="coreMm">Thickness of the core inside its range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A thickness outside its range or NaN.</exception>
    public Lab ColorAt(double veneerMm, double coreMm)
    {
        CheckInside(ref veneerMm, ref coreMm);
        return ColorUnchecked(veneerMm, coreMm);
    }

    /// <summary>Largest difference over illuminants at two thicknesses.</summary>
    /// <param name="veneerMm">Thickness of the veneer inside its range, mm.</param>
    /// <param name="coreMm">Thickness of the core inside its range, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A thickness outside its range or NaN.</exception>
    public double DifferenceAt(double veneerMm, double coreMm)
    {
        CheckInside(ref veneerMm, ref coreMm);
        return Difference(veneerMm, coreMm);
    }

    /// <summary>How thick the core must be where the veneer has a given thickness; all thicknesses of the answer are
    /// the core's.</summary>
    /// <param name="veneerMm">Thickness of the veneer inside its range, mm.</param>
    /// <returns>
    /// By colour: the smallest core from which on all of the range, for a target all up to
    /// <see cref="MinimumThickness.ByColorUpToMm"/>, meets the criterion even if the table is off by its bound, for all
    /// veneers of the same 256th of their range. Reliable: that and the larger of the margins between the thickness by
    /// colour and the reliable one at the two nearest of nine veneers for which both are computed exactly.
    /// Structural: by limits on the core alone and on core and veneer. The uncertainty is the larger at those two.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The thickness is outside its range or NaN.</exception>
    public ThicknessRequirement CoreRequirementAt(double veneerMm)
    {
        veneerMm = SinglePrecision.Inside(VeneerRange, veneerMm);
        Guard.InRange(veneerMm, VeneerRange.MinMm, VeneerRange.MaxMm, "mm");
        CoreThicknesses cores = MinimaAt(veneerMm);
        double at = (veneerMm - VeneerRange.MinMm) * _veneerPerMm * (CoreRequirements.Count - 1);
        int node = Math.Min((int)at, CoreRequirements.Count - 2);
        double? one = Requirements.Minima[node].StandardUncertaintyMm,
            other = Requirements.Minima[node + 1].StandardUncertaintyMm;
        MinimumThickness minimum = new(
            Number(cores.ByColorMm), Number(cores.ReliableMm), Requirements.Strength.MinimumCoreMm(veneerMm),
            CoreRange.MaxMm, Requirements.Share,
            double.IsNaN(cores.ByColorMm) ? null : one > other || other is null ? one : other,
            Number(cores.ByColorUpToMm), Number(cores.ReliableUpToMm));
        return new ThicknessRequirement(
            Requirements.ZoneName, minimum, CoreRange.MaxMm, Requirements.Criterion, Requirements.Cautions);
    }

    /// <summary>The difference; NaN where a thickness is not covered.</summary>
    internal double Difference(double veneerMm, double coreMm) => Inside(ref veneerMm, ref coreMm)
        ? DifferenceUnchecked(veneerMm, coreMm)
        : double.NaN;

    /// <summary>The colour; NaN in all three where a thickness is not covered.</summary>
    internal Lab ColorOrNone(double veneerMm, double coreMm) => Inside(ref veneerMm, ref coreMm)
        ? ColorUnchecked(veneerMm, coreMm)
        : new Lab(double.NaN, double.NaN, double.NaN);

    /// <summary>What can be said of two thicknesses.</summary>
    internal PointStatus StatusOf(double veneerMm, double coreMm)
    {
        if (!Inside(ref veneerMm, ref coreMm))
        {
            return double.IsNaN(veneerMm) || double.IsNaN(coreMm) ? PointStatus.NoData
                : veneerMm < VeneerRange.MinMm || coreMm < CoreRange.MinMm ? PointStatus.BelowRange
                : PointStatus.AboveRange;
        }

        if (DifferenceUnchecked(veneerMm, coreMm) > Requirements.Criterion.Limit)
        {
            return PointStatus.Shows;
        }

        if (coreMm + Rounding(veneerMm + coreMm) < Requirements.Strength.MinimumCoreMm(veneerMm))
        {
            return PointStatus.BelowStructuralMinimum;
        }

        CoreThicknesses cores = MinimaAt(veneerMm);
        return coreMm >= SinglePrecision.Below(cores.ReliableMm)
            && coreMm <= SinglePrecision.Above(cores.ReliableUpToMm)
            ? PointStatus.MaskedReliably
            : PointStatus.MaskedByColorOnly;
    }

    /// <summary>How much thicker the core must be for a goal; NaN where thicker does not help.</summary>
    internal double MissingCoreMm(double veneerMm, double coreMm, ThicknessGoal goal)
    {
        veneerMm = SinglePrecision.Inside(VeneerRange, veneerMm);
        if (!VeneerRange.Contains(veneerMm))
        {
            return double.NaN;
        }

        CoreThicknesses cores = MinimaAt(veneerMm);
        (double from, double upTo) = goal == ThicknessGoal.ByColor
            ? (cores.ByColorMm, cores.ByColorUpToMm)
            : (cores.ReliableMm, cores.ReliableUpToMm);

        // Math.Max gives NaN when either is.
        double needed = Math.Max(from, Requirements.Strength.MinimumCoreMm(veneerMm) ?? (
            goal == ThicknessGoal.Recommended ? double.NaN : 0));
        bool exists = needed <= CoreRange.MaxMm && !(needed > upTo)
            && !(goal == ThicknessGoal.Recommended && Guard.RoundedUp(needed) > upTo);
        return !exists ? double.NaN
            : !(coreMm + Rounding(veneerMm + needed) >= needed) ? needed - coreMm
            : coreMm > SinglePrecision.Above(upTo) ? double.NaN
            : 0;
    }

    /// <summary>The cores under a veneer inside its range.</summary>
    internal CoreThicknesses MinimaAt(double veneerMm) => _minima.Value[(veneerMm - VeneerRange.MinMm) * _veneerPerMm];

    // What rounding veneer and core to single precision may take from the wall.
    private static double Rounding(double wallMm) => SinglePrecision.Above(wallMm) - wallMm;

    private static double? Number(double mm) => double.IsNaN(mm) || double.IsInfinity(mm) ? null : mm;

    private static MinimumThickness CoreMinimum(
        Restoration under,
        double veneerMm,
        ThicknessRange core,
        CoreStrength strength,
        MaskingOptions options,
        CancellationToken cancellation)
    {
        ZoneComparison comparison = new(new CompiledWall(under, cancellation), under.Zones[0]);
        MinimumThickness wall = MaskingThickness.Find(comparison, options, cancellation).Minimum;
        double? Core(double? wallMm) =>
            wallMm is double mm ? Math.Min(core.MaxMm, Math.Max(core.MinMm, mm - veneerMm)) : null;
        return new MinimumThickness(
            Core(wall.ByColorMm), Core(wall.ReliableMm), strength.MinimumCoreMm(veneerMm), core.MaxMm, options.Share,
            wall.StandardUncertaintyMm, Core(wall.ByColorUpToMm), Core(wall.ReliableUpToMm));
    }

    private double DifferenceUnchecked(double veneerMm, double coreMm) =>
        _differences.At((veneerMm - VeneerRange.MinMm) * _veneerPerMm, (coreMm - CoreRange.MinMm) * _corePerMm);

    internal Lab ColorUnchecked(double veneerMm, double coreMm)
    {
        (double l, double a, double b) = _colors.ThreeAt(
            (veneerMm - VeneerRange.MinMm) * _veneerPerMm, (coreMm - CoreRange.MinMm) * _corePerMm);
        return new Lab(l, a, b);
    }

    // Ends that single precision made of those of the ranges become those again.
    private bool Inside(ref double veneerMm, ref double coreMm)
    {
        if (VeneerRange.Contains(veneerMm) && CoreRange.Contains(coreMm))
        {
            return true;
        }

        veneerMm = SinglePrecision.Inside(VeneerRange, veneerMm);
        coreMm = SinglePrecision.Inside(CoreRange, coreMm);
        return VeneerRange.Contains(veneerMm) && CoreRange.Contains(coreMm);
    }

    private void CheckInside(ref double veneerMm, ref double coreMm)
    {
        Inside(ref veneerMm, ref coreMm);
        Guard.InRange(veneerMm, VeneerRange.MinMm, VeneerRange.MaxMm, "mm");
        Guard.InRange(coreMm, CoreRange.MinMm, CoreRange.MaxMm, "mm");
    }
}
