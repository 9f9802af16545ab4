using CeramicOptics.Colorimetry;
using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>What lies under the lowest layer: the stump, a backing, or an ideal limit.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class Substrate
{
    // A black body reads what its surface reflects: 0.0400 for index 1.5 at 8 degrees. Readings of tiles are often
    // stated to two digits, and an index that is 0.04 too high moves that as much.
    private const double RoundingOfReadings = 0.005;

    private readonly double[]? _reflectance;
    private readonly double[]? _index;
    private readonly double _ideal;
    private readonly Lazy<double> _lostShare;

    private Substrate(
        string name, WavelengthGrid? grid, double[]? reflectance, double[]? index, double ideal,
        bool isEstimated = false, ReadingArea? area = null)
    {
        Name = Guard.NotBlank(name);
        (Grid, _reflectance, _index, _ideal, IsEstimated) = (grid, reflectance, index, ideal, isEstimated);
        Area = area ?? ReadingArea.Large;
        _lostShare = new Lazy<double>(() => _reflectance is null || _index is null
            ? 0
            : Lateral.TypicalBody.LostShare(Area, _reflectance.Average(), _index[_index.Length / 2]));
    }

    /// <summary>Absorbs all light that reaches it; takes the index of whatever lies on it.</summary>
    public static Substrate Black { get; } = new("ideal black", null, null, null, 0);

    /// <summary>Returns all light that reaches it, diffusely; takes the index of whatever lies on it.</summary>
    public static Substrate White { get; } = new("ideal white", null, null, null, 1);

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>
    /// Wavelengths of the data; null for the ideal substrates, which have the same reflectance at all.
    /// </summary>
    internal WavelengthGrid? Grid { get; }

    /// <summary>
    /// The area that the instrument illuminated and measured when the body was read; large where nothing was read, or
    /// nothing spreads sideways.
    /// </summary>
    internal ReadingArea Area { get; }

    /// <summary>True when the spectrum was estimated from a colour.</summary>
    public bool IsEstimated { get; }

    /// <summary>
    /// A diffusing body of which only the colour in air is known, such as a chairside reading of a stump.
    /// </summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="color">The colour.</param>
    /// <param name="under">Illuminant and observer of the reading.</param>
    /// <param name="grid">Wavelengths wanted.</param>
    /// <param name="refractiveIndex">Index of the body.</param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="area">
    /// The area that the instrument illuminated and measured; not stated when null, which decisions about a stump say.
    /// A window is not corrected here: see <c>WindowCorrection</c>.
    /// </param>
    /// <remarks>
    /// The smoothest reflectance with this colour is taken (<see cref="Colorimeter.SmoothestReflectance"/>). The
    /// stump's own spectrum differs, and so does what follows from it under ceramic and other light; results say so.
    /// </remarks>
    /// <exception cref="ArgumentException">The grid does not reach from 400 to 700 nm.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No reflectance has this colour, or it is more than 0.005 below the surface reflection.
    /// </exception>
    public static Substrate FromMeasuredColor(
        string name, Lab color, Colorimeter under, WavelengthGrid grid, RefractiveIndex refractiveIndex,
        MeasurementGeometry geometry, ReadingArea? area = null) => Read(
            name, Guard.NotNull(under).SmoothestReflectance(color, grid), refractiveIndex, geometry, area,
            isEstimated: true);

    /// <summary>A diffusing body, such as dentine or a tile, from its reflectance read in air.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="measured">Reflectance factor read in air.</param>
    /// <param name="refractiveIndex">
    /// Index of the body; its surface reflection is removed before the body lies under another layer.
    /// </param>
    /// <param name="geometry">Geometry of the reading.</param>
    /// <param name="area">
    /// The area that the instrument illuminated and measured; not stated when null, which decisions about a stump say.
    /// A window is not corrected here: see <c>WindowCorrection</c>.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A reading is more than 0.005 below the surface reflection, or above what a white body of this index gives; names
    /// the wavelength.
    /// </exception>
    /// <remarks>
    /// A reading of at most 0.005 below the surface reflection is that of a black body, rounded to two digits.
    /// </remarks>
    public static Substrate FromMeasuredReflectance(
        string name, ReflectanceSpectrum measured, RefractiveIndex refractiveIndex,
        MeasurementGeometry geometry, ReadingArea? area = null) =>
        Read(name, measured, refractiveIndex, geometry, area, isEstimated: false);

    private static Substrate Read(
        string name, ReflectanceSpectrum measured, RefractiveIndex refractiveIndex, MeasurementGeometry geometry,
        ReadingArea? area, bool isEstimated)
    {
        WavelengthGrid grid = Guard.NotNull(measured).Grid;
        double[] inside = new double[grid.Count], index = IndexOn(grid, refractiveIndex);
        for (int i = 0; i < inside.Length; i++)
        {
            SurfaceCorrection surface = new(geometry, index[i]);
            double low = surface.Measured(0), high = surface.Measured(1);
            inside[i] = measured[i] >= low - RoundingOfReadings && measured[i] <= high + 1e-12
                ? surface.ToInternal(Math.Max(measured[i], low))
                : throw new InputProblem(
                    InputProblemKind.OutOfRange, "reflectance", name, measured[i], "", low, high).ToException(
                    nameof(measured),
                    $"'{name}' at {Guard.Text(grid[i])} nm {(isEstimated ? "by its colour " : "")}reads "
                        + $"{Guard.Text(measured[i])}, outside "
                        + $"[{Guard.Text(Math.Round(low, 6))}, {Guard.Text(Math.Round(high, 6))}], which a body of "
                        + $"index {Guard.Text(index[i])} can give at geometry {geometry}; check "
                        + $"{(isEstimated ? "colour, " : "")}geometry and index.");
        }

        return new Substrate(name, grid, inside, index, 0, isEstimated, area ?? ReadingArea.NotStated);
    }

    /// <summary>A diffusing body from its reflectance inside, with no surface in the way.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="internalReflectance">Diffuse reflectance below the surface, 0 to 1.</param>
    /// <param name="refractiveIndex">Index of the body.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is above 1; names the wavelength.</exception>
    public static Substrate FromInternalReflectance(
        string name, ReflectanceSpectrum internalReflectance, RefractiveIndex refractiveIndex)
    {
        WavelengthGrid grid = Guard.NotNull(internalReflectance).Grid;
        return new Substrate(name, grid, UpToOne(internalReflectance), IndexOn(grid, refractiveIndex), 0);
    }

    /// <summary>
    /// An opaque metal or other body without inside: its surface reflectance is the same in every medium.
    /// </summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="reflectance">Reflectance of the surface, specular included, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is above 1; names the wavelength.</exception>
    /// <remarks>
    /// A metal under cement reflects a little less than in air; without its complex index that change is left out. The
    /// reflected light is taken as diffuse, as from a blasted surface.
    /// </remarks>
    public static Substrate OpaqueMetal(string name, ReflectanceSpectrum reflectance) =>
        new(name, Guard.NotNull(reflectance).Grid, UpToOne(reflectance), null, 0);

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The same body with every internal reflectance moved by a small amount, kept in [0, 1].</summary>
    internal Substrate Shifted(double by) => _reflectance is null
        ? new Substrate(Name, null, null, null, Math.Min(Math.Max(_ideal + by, 0), 1))
        : new Substrate(
            Name, Grid, Array.ConvertAll(_reflectance, value => Math.Min(Math.Max(value + by, 0), 1)), _index, 0,
            IsEstimated, Area);

    /// <summary>
    /// About the share of its light that a window loses of such a body; 0 where the area is large.
    /// </summary>
    internal double LostShare() => _lostShare.Value;

    /// <summary>A body of the same index with other internal reflectances, kept in [0, 1].</summary>
    internal Substrate WithInternalReflectance(string name, WavelengthGrid grid, double[] reflectance) => new(
        name, grid, Array.ConvertAll(reflectance, value => Math.Min(Math.Max(value, 0), 1)), _index, 0, IsEstimated);

    /// <summary>
    /// Reflectance seen from inside a medium that lies on the substrate, through a film where there is one.
    /// </summary>
    internal double SeenFrom(
        double indexAbove, CouplingMedium? film, double wavelengthNm, int wavelength, BoundaryCache boundaries)
    {
        (LayerOptics first, LayerOptics second, double body) = BelowMedium(
            indexAbove, film, wavelengthNm, wavelength, boundaries);
        return first.OnBacking(second.OnBacking(body));
    }

    /// <summary>
    /// The same taken apart: the element below the medium, the one below that, and the reflectance of the body.
    /// </summary>
    internal (LayerOptics First, LayerOptics Second, double Body) BelowMedium(
        double indexAbove, CouplingMedium? film, double wavelengthNm, int wavelength, BoundaryCache boundaries)
    {
        LayerOptics Surface(double index) =>
            _index is null ? LayerOptics.Clear : boundaries.Diffuse(index, _index[wavelength]);
        double body = _reflectance?[wavelength] ?? _ideal;
        if (film is null)
        {
            return (Surface(indexAbove), LayerOptics.Clear, body);
        }

        double filmIndex = film.RefractiveIndex.At(wavelengthNm);
        return (boundaries.Diffuse(indexAbove, filmIndex), Surface(filmIndex), body);
    }

    /// <summary>Reflectance of the body inside its own medium, 0 to 1.</summary>
    internal double InternalReflectanceAt(int wavelength) => _reflectance?[wavelength] ?? _ideal;

    /// <summary>The same at all wavelengths.</summary>
    internal void CopyInternalReflectances(Span<double> destination)
    {
        if (_reflectance is null)
        {
            destination.Fill(_ideal);
            return;
        }

        _reflectance.CopyTo(destination);
    }

    /// <summary>
    /// True when the other body has the same refractive indices, so that stacks compiled over one serve the other.
    /// </summary>
    internal bool HasSameIndexAs(Substrate other) =>
        _index is null ? other._index is null : other._index is not null && _index.AsSpan().SequenceEqual(other._index);

    /// <summary>
    /// The body as a Lambertian reflector: its internal reflectance, and the index of the medium in which it has that.
    /// </summary>
    internal (double Index, double Reflectance) BodyUnder(double indexAbove, int wavelength) =>
        (_index?[wavelength] ?? indexAbove, _reflectance?[wavelength] ?? _ideal);

    private static double[] IndexOn(WavelengthGrid grid, RefractiveIndex index)
    {
        double[] values = new double[grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = index.At(grid[i]);
        }

        return values;
    }

    private static double[] UpToOne(ReflectanceSpectrum spectrum)
    {
        for (int i = 0; i < spectrum.Grid.Count; i++)
        {
            Guard.InRange(spectrum[i], 0, 1, "", $"reflectance at {Guard.Text(spectrum.Grid[i])} nm");
        }

        return spectrum.Values.ToArray();
    }
}
