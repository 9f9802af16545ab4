using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>Largest colour difference over the lights of one zone, as a function of the thicknesses of veneer and
/// core.</summary>
/// <remarks>
/// As <see cref="ZoneComparison"/>, by whose definition the difference is taken. Not for use by two threads at once.
/// </remarks>
internal sealed class TwoLayerComparison
{
    private readonly ColorSurface _colors;
    private readonly ColorSurface? _references;
    private readonly Lab[]? _targets;
    private readonly double _error, _referenceError;

    /// <summary>Compiles a restoration whose veneer has a fixed thickness, which is ignored.</summary>
    public TwoLayerComparison(
        Restoration restoration, Zone zone, ThicknessRange veneer, ThicknessRange core, CancellationToken cancellation)
    {
        ViewingConditions viewing = restoration.Viewing;
        double wallMm = veneer.MaxMm + core.MaxMm;
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = restoration.LayersOf(wallMm);
        int coreAt = CompiledWall.Index(layers, LayerRole.Core);
        VariableThickness[] varied =
            [new(CompiledWall.Index(layers, LayerRole.Veneer), veneer), new(coreAt, core)];
        StackResponse Compiled(Substrate over) =>
            restoration.StackOver(over, wallMm).Compile(viewing.Geometry, varied, cancellation);

        StackResponse response = Compiled(zone.Stump);
        Criterion = restoration.Criterion;
        Tables = ZoneComparison.TablesOf(viewing, response);
        _colors = ColorSurface.Of(response.Axes, response.AtNodes(zone.Stump), Tables);
        _error = _referenceError = response.ErrorBound;
        if (zone.Reference is Target target)
        {
            _targets = target.ColorsUnder(viewing.Colorimeters, response.Grid, viewing.Geometry);
        }
        else if (((MaskingReference)zone.Reference).Substrate is { } good)
        {
            StackResponse over = response.Serves(good) ? response : Compiled(good);
            _references = ColorSurface.Of(over.Axes, over.AtNodes(good), Tables);
            _referenceError = over.ErrorBound;
        }
        else
        {
            _references = ColorSurface.Of(response.Axes, response.InfiniteAtNodes(coreAt, cancellation), Tables);
        }
    }

    public ColorCriterion Criterion { get; }

    public IReadOnlyList<WeightingTable> Tables { get; }

    /// <summary>Colour under the first light.</summary>
    public Lab Color(double veneerMm, double coreMm)
    {
        Span<double> xyz = stackalloc double[3 * Tables.Count];
        _colors.Evaluate(veneerMm, coreMm, xyz);
        return ToLab(xyz, 0);
    }

    /// <summary>Largest difference over the lights.</summary>
    public double Difference(double veneerMm, double coreMm)
    {
        Span<double> xyz = stackalloc double[3 * Tables.Count], others = stackalloc double[3 * Tables.Count];
        Span<Lab> colors = stackalloc Lab[Tables.Count], references = stackalloc Lab[Tables.Count];
        Evaluate(veneerMm, coreMm, xyz, others, colors, references);
        return ZoneComparison.Largest(Criterion, references, colors, out _);
    }

    /// <summary>Bound on the error of the difference that comes from the compiled stack.</summary>
    public double ErrorAt(double veneerMm, double coreMm)
    {
        Span<double> xyz = stackalloc double[3 * Tables.Count], others = stackalloc double[3 * Tables.Count];
        Span<Lab> colors = stackalloc Lab[Tables.Count], references = stackalloc Lab[Tables.Count];
        Evaluate(veneerMm, coreMm, xyz, others, colors, references);
        double error = 0;
        for (int c = 0; c < colors.Length; c++)
        {
            double move = ColorError.Of(_error, xyz.Slice(3 * c, 3), Tables[c]);
            move += _targets is null ? ColorError.Of(_referenceError, others.Slice(3 * c, 3), Tables[c]) : 0;
            error = Math.Max(error, ColorMove.Bound(Criterion, colors[c], references[c], move));
        }

        return error;
    }

    private void Evaluate(
        double veneerMm, double coreMm, Span<double> xyz, Span<double> others, Span<Lab> colors, Span<Lab> references)
    {
        _colors.Evaluate(veneerMm, coreMm, xyz);
        _references?.Evaluate(veneerMm, coreMm, others);
        for (int c = 0; c < colors.Length; c++)
        {
            colors[c] = ToLab(xyz, c);
            references[c] = _targets is null ? ToLab(others, c) : _targets[c];
        }
    }

    private Lab ToLab(ReadOnlySpan<double> xyz, int light) =>
        Lab.FromXyz(new Xyz(xyz[3 * light], xyz[(3 * light) + 1], xyz[(3 * light) + 2]), Tables[light].White);
}
