using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Masking;

/// <summary>Differences at distances from the middle of a round spot on the stump of a zone, over the thickness of the
/// wall.</summary>
/// <remarks>
/// The spot below is solved at every wavelength and a few thicknesses; between them colours are sums of Chebyshev
/// polynomials, as everywhere. Far away the zone's own stump is seen. Immutable.
/// </remarks>
internal sealed class SpotCurves
{
    private const int Degree = 9, Inside = 4;

    private const double FirstBeyondMm = 0.05, LastBeyondMm = 10, Ratio = 1.35;

    private readonly ZoneComparison _zone;
    private readonly ColorCurve[] _colors;
    private readonly double[] _reflectances;
    private readonly Substrate _spot;
    private readonly SpotBelow _below;
    private readonly CancellationToken _cancellation;

    public SpotCurves(
        ZoneComparison zone, Substrate spot, double radiusMm, IProgress<double>? progress, double part,
        CancellationToken cancellation)
    {
        (_zone, _spot, _cancellation) = (zone, spot, cancellation);
        DistancesMm = Distances(radiusMm);
        Axis = new Chebyshev(zone.Range, Degree);
        _below = new SpotBelow(radiusMm, DistancesMm, cancellation);
        int n = zone.Response.Grid.Count, count = DistancesMm.Length;
        _reflectances = new double[count * Axis.Count * n];
        for (int node = 0; node < Axis.Count; node++)
        {
            IReadOnlyList<ReflectanceSpectrum> seen = Seen(Axis.NodeMm(node), UnknownAnisotropy.SamplerFor);
            for (int r = 0; r < count; r++)
            {
                seen[r].Values.CopyTo(_reflectances.AsSpan(((r * Axis.Count) + node) * n, n));
            }

            progress?.Report(part * (node + 1) / Axis.Count);
        }

        _colors = [.. Enumerable.Range(0, count).Select(r => ColorCurve.Of(
            Axis, _reflectances.AsSpan(r * Axis.Count * n, Axis.Count * n), zone.Tables))];
    }

    public double[] DistancesMm { get; }

    public Chebyshev Axis { get; }

    /// <summary>Difference at one of the distances; one beyond the last is far away.</summary>
    public double Difference(int distance, double wallMm)
    {
        if (distance == DistancesMm.Length)
        {
            return _zone.Difference(wallMm);
        }

        Span<double> xyz = stackalloc double[3 * _zone.Lights];
        Span<Lab> colors = stackalloc Lab[_zone.Lights], references = stackalloc Lab[_zone.Lights];
        _zone.Evaluate(wallMm, colors, references);
        _colors[distance].Evaluate(Axis.At(wallMm), xyz);
        for (int c = 0; c < colors.Length; c++)
        {
            colors[c] = _zone.ToLab(xyz, c);
        }

        return ZoneComparison.Largest(_zone.Criterion, references, colors, out _);
    }

    /// <summary>The largest difference at any distance, far away included.</summary>
    public double Largest(double wallMm)
    {
        double largest = 0;
        for (int r = 0; r <= DistancesMm.Length; r++)
        {
            largest = Math.Max(largest, Difference(r, wallMm));
        }

        return largest;
    }

    /// <summary>The distance at which the spot itself shows most, far away left out.</summary>
    public int Worst(double wallMm) => Enumerable.Range(0, DistancesMm.Length)
        .OrderByDescending(r => Difference(r, wallMm)).First();

    /// <summary>
    /// Standard uncertainty of the difference at one of the distances from the anisotropy of scattering: 0 where the
    /// model states it, else half the change from one end of its range to the other over the root of 3.
    /// </summary>
    public double FromAnisotropy(int distance, double wallMm)
    {
        if (UnknownAnisotropy.IsStatedBy(_zone.Wall.Restoration.Core.Material.Model))
        {
            return 0;
        }

        double[] ends = Array.ConvertAll((double[])[UnknownAnisotropy.Least, UnknownAnisotropy.Most], end =>
        {
            ReflectanceSpectrum seen = Seen(
                wallMm, (stack, geometry) => UnknownAnisotropy.SamplerAt(stack, geometry, end))[distance];
            Span<Lab> colors = stackalloc Lab[_zone.Lights], references = stackalloc Lab[_zone.Lights];
            _zone.Evaluate(wallMm, colors, references);
            for (int c = 0; c < colors.Length; c++)
            {
                colors[c] = _zone.Tables[c].ToLab(seen.Values);
            }

            return ZoneComparison.Largest(_zone.Criterion, references, colors, out _);
        });
        return Math.Abs(ends[0] - ends[1]) / 2 / Math.Sqrt(3);
    }

    /// <summary>A stump that, everywhere under the wall, looks as the spot does at one of the distances.</summary>
    public Substrate StumpLike(int distance, double wallMm, string name)
    {
        int n = _zone.Response.Grid.Count;
        double[] polynomials = new double[Axis.Count], coefficients = new double[Axis.Count * n], seen = new double[n];
        Axis.Transform(_reflectances.AsSpan(distance * Axis.Count * n, Axis.Count * n), n, coefficients);
        Chebyshev.Polynomials(Axis.At(wallMm), polynomials);
        for (int k = 0; k < Axis.Count; k++)
        {
            SpanMath.AddScaled(seen, coefficients.AsSpan(k * n, n), polynomials[k]);
        }

        return _zone.Zone.Stump.WithInternalReflectance(
            name, _zone.Response.Grid, Equivalent(_zone, wallMm, seen));
    }

    // At every distance.
    private IReadOnlyList<ReflectanceSpectrum> Seen(
        double wallMm, Func<LayerStack, MeasurementGeometry, LateralSampler> sampler)
    {
        Restoration restoration = _zone.Wall.Restoration;
        MeasurementGeometry geometry = restoration.Viewing.Geometry;
        double[] inside = Equivalent(_zone, wallMm, _zone.Wall.Over(_spot).Reflectance(_spot, wallMm).Values);
        LayerStack stack = restoration.StackOver(_zone.Zone.Stump, wallMm);
        return LateralReflectance.AboveSpot(
            stack, _zone.Zone.Stump.WithInternalReflectance(_spot.Name, _zone.Response.Grid, inside), geometry,
            _below, sampler(stack, geometry), _cancellation);
    }

    // Internal reflectances of a body of the stump's index that give the readings: R = A + B g / (1 - C g), taken from
    // the readings over black, half white and white.
    private static double[] Equivalent(ZoneComparison zone, double wallMm, ReadOnlySpan<double> readings)
    {
        WavelengthGrid grid = zone.Response.Grid;
        double[] Over(double g)
        {
            Substrate body = zone.Zone.Stump.WithInternalReflectance(
                "body", grid, [.. Enumerable.Repeat(g, grid.Count)]);
            return zone.Response.Reflectance(body, wallMm).Values.ToArray();
        }

        double[] black = Over(0), half = Over(0.5), white = Over(1), inside = new double[grid.Count];
        for (int i = 0; i < inside.Length; i++)
        {
            // (R(g) - A)/g = B + C (R(g) - A), at g = 1/2 and 1.
            double some = half[i] - black[i], all = white[i] - black[i], own = readings[i] - black[i];
            double c = all > some ? (all - (2 * some)) / (all - some) : 0, b = all - (c * all);
            inside[i] = b + (c * own) > 0 ? Math.Min(1, Math.Max(0, own / (b + (c * own)))) : 0;
        }

        return inside;
    }

    private static double[] Distances(double radiusMm)
    {
        List<double> distances = [.. Enumerable.Range(0, Inside).Select(i => radiusMm * i / Inside)];
        for (double beyond = FirstBeyondMm; beyond < LastBeyondMm; beyond *= Ratio)
        {
            distances.Add(radiusMm + beyond);
        }

        return [.. distances];
    }
}
