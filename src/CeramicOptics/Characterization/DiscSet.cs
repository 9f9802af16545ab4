using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>All readings of one material, on discs of any thicknesses over any backings.</summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed class DiscSet
{
    /// <summary>A set that has been checked for readings that contradict each other.</summary>
    /// <param name="name">Name of the material.</param>
    /// <param name="refractiveIndex">Index of the material.</param>
    /// <param name="readings">At least two readings on one grid.</param>
    /// <exception cref="ArgumentException">
    /// Fewer than two readings; grids differ; a disc reads brighter over a darker backing, or reflects over black and passes together more than all light.
    /// Names the readings, the wavelength and the values.
    /// </exception>
    public DiscSet(string name, RefractiveIndex refractiveIndex, IEnumerable<DiscReading> readings)
        : this(name, refractiveIndex, readings, isImagined: false)
    {
    }

    private DiscSet(string name, RefractiveIndex refractiveIndex, IEnumerable<DiscReading> readings, bool isImagined)
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

        if (!isImagined)
        {
            CheckConsistency();
        }
    }

    /// <summary>Name of the material.</summary>
    public string Name { get; }

    /// <summary>Index of the material.</summary>
    public RefractiveIndex RefractiveIndex { get; }

    /// <summary>The readings.</summary>
    public IReadOnlyList<DiscReading> Readings { get; }

    /// <summary>Wavelengths of all readings.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>A set for planning, whose values were never read and so are not compared with each other.</summary>
    internal static DiscSet Imagined(DiscSet like, IEnumerable<DiscReading> readings) => new(like.Name, like.RefractiveIndex, readings, isImagined: true);

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
                foreach (DiscReading b in Readings.Where(b => b != a && b.ThicknessMm == a.ThicknessMm && b.Geometry == a.Geometry && !b.IsTransmittance))
                {
                    double noise = 4 * Math.Sqrt((a.StandardUncertainty * a.StandardUncertainty) + (b.StandardUncertainty * b.StandardUncertainty));
                    if (!a.IsTransmittance && Seen(a) < Seen(b) && a.Values[i] > b.Values[i] + noise)
                    {
                        throw new ArgumentException(
                            $"'{Name}' at {Guard.Text(Grid[i])} nm reads {Guard.Text(a.Values[i])} in '{a.Name}' over a darker backing and {Guard.Text(b.Values[i])} in '{b.Name}' over a lighter one; are they swapped?");
                    }
                }

                foreach (DiscReading b in Readings.Where(b => a.IsTransmittance && !b.IsTransmittance && b.ThicknessMm == a.ThicknessMm && Seen(b) <= freeFace))
                {
                    if (a.Values[i] + b.Values[i] > 1 + (4 * (a.StandardUncertainty + b.StandardUncertainty)))
                    {
                        throw new ArgumentException(
                            $"'{Name}' at {Guard.Text(Grid[i])} nm passes {Guard.Text(a.Values[i])} in '{a.Name}' and reflects {Guard.Text(b.Values[i])} over black in '{b.Name}', together more than all light.");
                    }
                }
            }
        }
    }
}
