using CeramicOptics.Colorimetry;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>
/// Colour, difference and status of one zone as textures, for shaders that colour a mesh by its thicknesses.
/// </summary>
/// <remarks>
/// Two textures of the same size. One has four numbers per texel: red, green and blue in linear light (primaries and
/// white of sRGB, IEC 61966-2-1, not clipped, under the first illuminant as <see cref="ThicknessMap.DisplayColors"/>
/// has it), and the largest difference over illuminants; it is read with linear filtering. The other has the
/// <see cref="PointStatus"/> as one byte per texel; it is read without. Both are clamped to their edges and have no
/// smaller levels. The first and the last texel centre of a side are the ends of the range.
/// CeramicOptics.Exchange.GpuTableFile has the function in GLSL that reads both, and files. The errors are departures
/// from the response itself, on top of its own bound. Immutable and safe to share.
/// </remarks>
public sealed class GpuTable
{
    /// <summary>Weights of linear filtering may have as few as 8 bits after the point on common hardware.</summary>
    private const double WeightStep = 1.0 / 256;

    // The places that are looked at are close, but not all.
    private const double Margin = 1.2;

    private readonly byte[] _texels, _statuses;

    private GpuTable(
        GpuAxis[] axes, bool isHalf, Func<double, double, Lab> color, Func<double, double, double> difference,
        Func<double, double, byte> status, double responseError, ThicknessRequirement[] requirements)
    {
        (Axes, IsHalf, ResponseErrorBound) = (axes, isHalf, responseError);
        (Width, Height) = (axes[0].Size, axes.Length > 1 ? axes[1].Size : 1);
        double X(double texel) => axes[0].Mm(texel);
        double Y(double texel) => axes.Length > 1 ? axes[1].Mm(texel) : 0;
        GpuTexels texels = new(Width, Height, isHalf, (x, y) => color(X(x), Y(y)), (x, y) => difference(X(x), Y(y)));
        _texels = texels.Bytes;
        _statuses = new byte[Width * Height];
        for (int i = 0; i < _statuses.Length; i++)
        {
            _statuses[i] = status(X(i % Width), Y(i / Width));
        }

        (BelowStatus, AboveStatus, UnknownStatus) = (
            status(axes[0].Range.MinMm - 1, Y(0)), status(axes[0].Range.MaxMm + 1, Y(0)),
            status(double.NaN, double.NaN));

        // Coordinates are computed in single precision, by some eight roundings.
        double weight = WeightStep + (Math.Max(Width, Height) * Math.Pow(2, -21));
        bool isPlane = axes.Length > 1;
        double worst = 0, worstColor = 0;
        foreach (double y in isPlane ? axes[1].Breaks() : [0])
        {
            foreach (double x in axes[0].Breaks())
            {
                worst = Math.Max(worst, Math.Abs(difference(X(x), Y(y)) - texels.Difference(x, y)));
            }
        }

        Xyz white = Colorimeter.D65TwoDegree.White;
        foreach (double y in isPlane ? axes[1].Places(2) : [0])
        {
            foreach (double x in axes[0].Places(isPlane ? 2 : 8))
            {
                worstColor = Math.Max(worstColor, texels.ColorError(x, y, color(X(x), Y(y)), weight, white));
            }
        }

        (double along, double across) = texels.LargestSteps();
        DifferenceError = worst + (weight * (along + across));
        ColorError = Margin * worstColor;
        StatusErrorMm = axes.Max(axis => axis.StepMm * (0.5 + weight));
        Requirements = Guard.Copy(requirements);
        Cautions = Guard.Copy(requirements.SelectMany(requirement => requirement.Cautions).Distinct());
    }

    /// <summary>Texels of a row: the wall, or the veneer, from thin to thick.</summary>
    public int Width { get; }

    /// <summary>Rows: the core from thin to thick; 1 where there is only the wall.</summary>
    public int Height { get; }

    /// <summary>True for numbers of 16 bits (IEEE 754 binary16), false for 32.</summary>
    internal bool IsHalf { get; }

    /// <summary>Four numbers per texel, little-endian, row by row: red, green, blue, difference.</summary>
    public ReadOnlySpan<byte> Texels => _texels;

    /// <summary>The <see cref="PointStatus"/> of each texel as a byte, row by row.</summary>
    public ReadOnlySpan<byte> Statuses => _statuses;

    /// <summary>Largest departure of a colour read with linear filtering, as a distance in L*a*b*.</summary>
    /// <remarks>
    /// The largest that was seen at the texels and between them (at seven places, in two dimensions at three), with
    /// weights off by one step of 8 bits and coordinates in single precision, and a fifth more.
    /// </remarks>
    public double ColorError { get; }

    /// <summary>Largest departure of a difference read with linear filtering, in the units of the criterion.</summary>
    /// <remarks>Table and response are straight lines between places that were all compared; weights as for
    /// colours.</remarks>
    public double DifferenceError { get; }

    /// <summary>A status is that of a point at most so far away in each thickness, mm.</summary>
    public double StatusErrorMm { get; }

    /// <summary>Cautions that must be shown with anything that is drawn from the table.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    internal IReadOnlyList<GpuAxis> Axes { get; }

    /// <summary>Status of a point of which a thickness is below its range.</summary>
    internal byte BelowStatus { get; }

    /// <summary>Status of a point of which a thickness is above its range, and none below.</summary>
    internal byte AboveStatus { get; }

    /// <summary>Status of a point without a thickness.</summary>
    internal byte UnknownStatus { get; }

    internal double ResponseErrorBound { get; }

    internal IReadOnlyList<ThicknessRequirement> Requirements { get; }

    /// <summary>The table of a response over the thickness of a wall.</summary>
    /// <param name="response">The response.</param>
    /// <param name="halfPrecision">
    /// True for numbers of 16 bits: half the memory, and every device filters them; false for 32.
    /// </param>
    /// <param name="size">Texels, 16 to 16384.</param>
    /// <exception cref="ArgumentOutOfRangeException">Size outside its range.</exception>
    public static GpuTable From(ThicknessResponse response, bool halfPrecision, int size = 1024)
    {
        ThicknessMap map = new([Guard.NotNull(response)]);
        byte Status(double mm, double other)
        {
            Span<PointStatus> one = stackalloc PointStatus[1];
            map.Statuses([mm], one);
            return (byte)one[0];
        }

        GpuAxis wall = new(
            "wall", response.Range, Guard.InRange(size, 16, 16384), response.DifferenceTable.Length - 1);
        return new GpuTable(
            [wall], halfPrecision, (mm, _) => response.ColorUnchecked(mm), (mm, _) => response.DifferenceAt(mm), Status,
            response.ErrorBound, [response.Requirement]);
    }

    /// <summary>The table of a response over the thicknesses of veneer and core.</summary>
    /// <param name="response">The response.</param>
    /// <param name="halfPrecision">As for a wall.</param>
    /// <param name="size">Texels of each side, 16 to 2048.</param>
    /// <exception cref="ArgumentOutOfRangeException">Size outside its range.</exception>
    public static GpuTable From(TwoLayerResponse response, bool halfPrecision, int size = 256)
    {
        TwoLayerMap map = new([Guard.NotNull(response)]);
        byte Status(double veneer, double core)
        {
            Span<PointStatus> one = stackalloc PointStatus[1];
            map.Statuses([veneer], [core], one);
            return (byte)one[0];
        }

        Guard.InRange(size, 16, 2048);
        int parts = CellTable.Side * response.DifferenceCells.Parts.Max();
        return new GpuTable(
            [new GpuAxis("veneer", response.VeneerRange, size, parts),
                new GpuAxis("core", response.CoreRange, size, parts)],
            halfPrecision, response.ColorUnchecked, response.DifferenceAt, Status, response.ErrorBound,
            [.. Enumerable.Range(0, CoreRequirements.Count).Select(
                i => response.CoreRequirementAt(CoreRequirements.VeneerMm(response.VeneerRange, i)))]);
    }
}
