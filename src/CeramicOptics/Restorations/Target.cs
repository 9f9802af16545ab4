using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Spectra;

namespace CeramicOptics.Restorations;

/// <summary>
/// A colour that the restoration should have, such as that of a neighbouring tooth, with the geometry of its reading.
/// </summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class Target : ColorReference
{
    // Enamel (common practice, no source).
    private const double ToothIndex = 1.62;

    private readonly Lab _color;
    private readonly GridCache<ReflectanceSpectrum> _estimates = new();

    private readonly bool _isEstimated;
    private readonly Lazy<double> _lostShare;

    private Target(
        string name, ReflectanceSpectrum? spectrum, Lab color, Colorimeter? under, MeasurementGeometry geometry,
        ReadingArea? area, bool isEstimated = false)
        : base(name)
    {
        (Spectrum, _color, Under, Geometry) = (spectrum, color, under, Guard.Defined(geometry));
        (Area, _isEstimated) = (area ?? ReadingArea.NotStated, isEstimated);
        _lostShare = new Lazy<double>(() => TypicalBody.LostShare(
            Area,
            Math.Min(1, Spectrum?.Values.ToArray().Average() ?? Math.Pow((Math.Max(8, _color.L) + 16) / 116, 3)),
            ToothIndex));
    }

    /// <summary>Geometry of the reading.</summary>
    internal MeasurementGeometry Geometry { get; }

    /// <summary>The area that the instrument illuminated and measured.</summary>
    internal ReadingArea Area { get; }

    /// <summary>The reflectance read; null where only a colour is known.</summary>
    public ReflectanceSpectrum? Spectrum { get; }

    /// <summary>Illuminant and observer of a colour; null where the reflectance is known.</summary>
    public Colorimeter? Under { get; }

    /// <summary>A target known by its reflectance, such as a neighbouring tooth read with a
    /// spectrophotometer.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="reflectance">Reflectance factor.</param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="area">
    /// The area that the instrument illuminated and measured; not stated when null, which decisions report. A window is
    /// not corrected here: see <c>WindowCorrection</c>.
    /// </param>
    public static Target FromReflectance(
        string name, ReflectanceSpectrum reflectance, MeasurementGeometry geometry, ReadingArea? area = null) =>
        new(name, Guard.NotNull(reflectance), default, null, geometry, area);

    /// <summary>A target known only as L*a*b*.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="color">The colour; L* 0 to 100.</param>
    /// <param name="under">Illuminant and observer of the reading.</param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="area">
    /// The area that the instrument illuminated and measured; not stated when null, which decisions report. A window is
    /// not corrected here: see <c>WindowCorrection</c>.
    /// </param>
    /// <remarks>
    /// Under that illuminant and observer the colour is used as it is. Under others it is estimated from the smoothest
    /// reflectance with this colour, and results say so.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">
    /// L* outside 0 to 100, a value that is NaN or beyond 1000, or a colour that no body has: X or Z would be below 0
    /// or above that of white.
    /// </exception>
    public static Target FromColor(
        string name, Lab color, Colorimeter under, MeasurementGeometry geometry, ReadingArea? area = null)
    {
        Guard.InRange(color.L, 0, 100, "", "L*");
        Guard.InRange(color.A, -1000, 1000, "", "a*");
        Guard.InRange(color.B, -1000, 1000, "", "b*");
        Guard.NotNull(under).RequirePossible(color);
        return new Target(name, null, color, under, geometry, area);
    }

    /// <summary>The same body as it would read in another geometry.</summary>
    /// <param name="geometry">The other geometry.</param>
    /// <param name="surfaceIndex">
    /// Refractive index of the body, such as 1.62 for enamel (common practice, no source).
    /// </param>
    /// <param name="grid">
    /// Wavelengths for a target known only as a colour, which is then estimated by its smoothest reflectance; ignored
    /// for a spectrum.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The reading is outside what a body of this index can give; names the wavelength.
    /// </exception>
    /// <remarks>
    /// The surface reflection of the one geometry is removed and that of the other added
    /// (<see cref="SurfaceCorrection"/>).
    /// </remarks>
    public Target ReadIn(MeasurementGeometry geometry, RefractiveIndex surfaceIndex, WavelengthGrid grid)
    {
        ReflectanceSpectrum read = Spectrum ?? Under!.SmoothestReflectance(_color, grid);
        Substrate body = Substrate.FromMeasuredReflectance(Name, read, surfaceIndex, Geometry);
        double[] values = new double[read.Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            SurfaceCorrection surface = new(geometry, surfaceIndex.At(read.Grid[i]));
            values[i] = surface.ToMeasured(body.InternalReflectanceAt(i));
        }

        return new Target(
            Name, new ReflectanceSpectrum(read.Grid, values), default, null, geometry, Area,
            _isEstimated || Spectrum is null);
    }

    /// <summary>
    /// Approximate share of the light of such a tooth that its window loses; 0 where the area is large.
    /// </summary>
    internal double LostShare() => _lostShare.Value;

    /// <summary>
    /// True where its spectrum is an estimate from a colour: under another illuminant or observer, or in another
    /// geometry.
    /// </summary>
    internal bool IsEstimatedUnder(IEnumerable<Colorimeter> colorimeters) => _isEstimated
        || Under is not null && colorimeters.Any(colorimeter => !colorimeter.IsLike(Under));

    /// <summary>Its colours, one for each colorimeter.</summary>
    internal Lab[] ColorsUnder(
        IReadOnlyList<Colorimeter> colorimeters, WavelengthGrid grid, MeasurementGeometry viewing)
    {
        if (Geometry != viewing)
        {
            throw new ArgumentException(
                $"Target '{Name}' was read in {Geometry} but the restoration is viewed in {viewing}; convert it by "
                    + "Target.ReadIn, or view in the geometry of the reading.");
        }

        if (Spectrum is not null)
        {
            grid.RequireSame(Spectrum.Grid, $"Target '{Name}'");
            return [.. colorimeters.Select(colorimeter => colorimeter.ToLab(Spectrum))];
        }

        return
        [
            .. colorimeters.Select(colorimeter => colorimeter.IsLike(Under!)
                ? _color
                : colorimeter.ToLab(_estimates.GetOrAdd(grid, key => Under!.SmoothestReflectance(_color, key)))),
        ];
    }
}
