using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>All readings of one material, on discs of any thicknesses over any backings.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class DiscSet : Formattable
{
    /// <summary>A set that has been checked for readings that contradict each other.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="readings">At least two readings on one grid.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than two readings; grids differ; a disc reads brighter over a darker backing, or reflects over black and
    /// passes together more than all light. Names the readings, the wavelength and the values.
    /// </exception>
    public DiscSet(string name, RefractiveIndex refractiveIndex, IEnumerable<DiscReading> readings)
        : this(name, refractiveIndex, readings, isChecked: true)
    {
    }

    private DiscSet(string name, RefractiveIndex refractiveIndex, IEnumerable<DiscReading> readings, bool isChecked)
    {
        Name = Guard.NotBlank(name);
        RefractiveIndex = refractiveIndex;
        Readings = Guard.Copy(readings, minimumCount: 2);
        Grid = Readings[0].Values.Grid;
        foreach (DiscReading reading in Readings)
        {
            Grid.RequireSame(reading.Values.Grid, $"Reading '{reading.Name}'");
            if (reading.Backing?.Substrate.Grid is { } backing)
            {
                Grid.RequireSame(backing, $"Backing '{reading.Backing.Substrate.Name}'");
            }
        }

        if (isChecked)
        {
            CheckConsistency();
        }
    }

    /// <summary>One disc over a black and over a white backing.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="thicknessMm">Thickness of the disc, 0.0001 to 20 mm.</param>
    /// <param name="overBlack">Reading over the black backing.</param>
    /// <param name="overWhite">Reading over the white backing, on the same grid.</param>
    /// <param name="blackBacking">The black backing.</param>
    /// <param name="whiteBacking">The white backing.</param>
    /// <param name="geometry">Geometry of both readings.</param>
    /// <param name="area">The area that the instrument illuminated and measured of the disc, at both readings.</param>
    /// <param name="readingStandardUncertainty">
    /// Standard uncertainty of one reading at one wavelength, 1e-9 to 0.1.
    /// </param>
    /// <param name="thicknessStandardUncertaintyMm">Standard uncertainty of the thickness, 0 to 1 mm.</param>
    /// <remarks>
    /// Readings that contradict each other are not refused here; the characterization has a finding for each such
    /// wavelength.
    /// </remarks>
    /// <exception cref="ArgumentException">Grids differ; shows both.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static DiscSet OverBlackAndWhite(
        string name,
        RefractiveIndex refractiveIndex,
        double thicknessMm,
        ReflectanceSpectrum overBlack,
        ReflectanceSpectrum overWhite,
        Backing blackBacking,
        Backing whiteBacking,
        MeasurementGeometry geometry,
        ReadingArea area,
        double readingStandardUncertainty = 0.002,
        double thicknessStandardUncertaintyMm = 0.01)
    {
        DiscReading Over(string backing, ReflectanceSpectrum values, Backing under) => DiscReading.Reflectance(
            backing, thicknessMm, values, under, geometry, area, readingStandardUncertainty,
            thicknessStandardUncertaintyMm);
        return new DiscSet(
            name,
            refractiveIndex,
            [Over("over black", Guard.NotNull(overBlack), Guard.NotNull(blackBacking)),
            Over("over white", Guard.NotNull(overWhite), Guard.NotNull(whiteBacking))],
            isChecked: false);
    }

    /// <summary>Name of the material.</summary>
    public string Name { get; }

    /// <summary>Index of the material.</summary>
    public RefractiveIndex RefractiveIndex { get; }

    /// <summary>The readings.</summary>
    public IReadOnlyList<DiscReading> Readings { get; }

    /// <summary>Wavelengths of all readings.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Thicknesses of the discs, mm, rising, each once.</summary>
    internal IReadOnlyList<double> ThicknessesMm =>
        Guard.Copy(Readings.Select(reading => reading.ThicknessMm).Distinct().OrderBy(mm => mm));

    /// <summary>
    /// Relative error common to all coefficients: every disc has its own error of thickness, and that of their mean is
    /// common.
    /// </summary>
    internal double RelativeScale
    {
        get
        {
            double[] relative = [.. Readings
                .GroupBy(reading => reading.ThicknessMm)
                .Select(disc => disc.Max(reading => reading.ThicknessStandardUncertaintyMm) / disc.Key)];
            return Math.Min(1, Math.Sqrt(relative.Sum(u => u * u)) / relative.Length);
        }
    }

    private protected override string InWords(Language language) =>
        language.Text("DiscSet", Name, language.Join(", ", ThicknessesMm));

    /// <summary>A set for planning, whose values were never read and so are not compared with each other.</summary>
    internal static DiscSet Imagined(DiscSet like, IEnumerable<DiscReading> readings) =>
        Imagined(like.Name, like.RefractiveIndex, readings);

    /// <summary>Such a set of a material of which no disc was read.</summary>
    internal static DiscSet Imagined(string name, RefractiveIndex index, IEnumerable<DiscReading> readings) =>
        new(name, index, readings, isChecked: false);

    /// <summary>True when light that spreads sideways changes a reading.</summary>
    internal bool HasWindows => Readings.Any(reading => reading.Area.HasWindow);

    /// <summary>The same readings, each taken as read over another area.</summary>
    internal DiscSet With(Func<ReadingArea, ReadingArea> area) => new(
        Name, RefractiveIndex, Readings.Select(reading => reading.With(area(reading.Area))), isChecked: false);

    private void CheckConsistency()
    {
        BoundaryCache boundaries = new();
        for (int i = 0; i < Grid.Count; i++)
        {
            double index = RefractiveIndex.At(Grid[i]);

            // A disc returns no more light over a backing darker than its own free face than it does when free.
            double freeFace = boundaries.Diffuse(index, 1).ReflectanceFromAbove;
            double Seen(DiscReading reading) => reading.Backing!.SeenFrom(index, Grid[i], i, boundaries);
            foreach (DiscReading a in Readings)
            {
                foreach (DiscReading b in Readings.Where(b => b != a && !b.IsTransmittance
                    && b.ThicknessMm == a.ThicknessMm && b.Geometry == a.Geometry && b.Area == a.Area))
                {
                    double noise = 4 * Math.Sqrt(
                        (a.StandardUncertainty * a.StandardUncertainty)
                            + (b.StandardUncertainty * b.StandardUncertainty));
                    if (!a.IsTransmittance && Seen(a) < Seen(b) && a.Values[i] > b.Values[i] + noise)
                    {
                        throw new ArgumentException(
                            $"'{Name}' at {Guard.Text(Grid[i])} nm reads {Guard.Text(a.Values[i])} in '{a.Name}' "
                                + $"over a darker backing and {Guard.Text(b.Values[i])} in '{b.Name}' over a "
                                + "lighter one; are they swapped, or was the film between disc and backing another?");
                    }
                }

                foreach (DiscReading b in Readings.Where(b => a.IsTransmittance && !b.IsTransmittance
                    && b.ThicknessMm == a.ThicknessMm && Seen(b) <= freeFace))
                {
                    if (a.Values[i] + b.Values[i] > 1 + (4 * (a.StandardUncertainty + b.StandardUncertainty)))
                    {
                        throw new ArgumentException(
                            $"'{Name}' at {Guard.Text(Grid[i])} nm passes {Guard.Text(a.Values[i])} in '{a.Name}' "
                                + $"and reflects {Guard.Text(b.Values[i])} over black in '{b.Name}', together more "
                                    + "than all light.");
                    }
                }
            }
        }
    }
}
