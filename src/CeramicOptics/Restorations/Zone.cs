using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>
/// A part of a restoration with its own stump, available thickness and reference, such as cervical, body or incisal.
/// </summary>
public sealed record Zone : IFormattable
{
    /// <summary>A zone.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="stump">The stump there.</param>
    /// <param name="availableMm">Thickness available for the wall (core and veneer), 0.001 to 100 mm.</param>
    /// <param name="reference">What the colour there is compared with: a target, or a masking reference.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public Zone(string name, Substrate stump, double availableMm, ColorReference reference)
    {
        Name = Guard.NotBlank(name);
        Stump = Guard.NotNull(stump);
        AvailableMm = Guard.InRange(
            availableMm, 1e-3, Layer.MaximumThicknessMm, "mm", "available thickness", name);
        Reference = Guard.NotNull(reference);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>The stump there.</summary>
    public Substrate Stump { get; private init; }

    /// <summary>Thickness available for the wall, mm.</summary>
    public double AvailableMm { get; private init; }

    /// <summary>What the colour there is compared with.</summary>
    public ColorReference Reference { get; private init; }

    /// <summary>
    /// Thinnest wall to consider when colours are matched, mm; null for the available thickness only. Feasibility
    /// starts there too, or at the start of the range of the wall when null. It is a wish: what must not be thinner has
    /// a strength limit, which every decision respects.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0.001 mm and the available thickness.</exception>
    public double? ThinnestMm
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 1e-3, AvailableMm, "mm", nameof(ThinnestMm));
    }

    /// <summary>
    /// Smallest thickness that strength requires in this zone, in addition to the limit of the ceramic; the stricter
    /// one counts. Not given by default.
    /// </summary>
    public StrengthLimit Strength
    {
        get;
        init => field = Guard.NotNull(value, nameof(Strength));
    } = StrengthLimit.NotGiven;

    /// <summary>Weight of this zone in the mean over zones, 0 to 1000; 1 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Weight { get; init => field = Guard.InRange(value, 0, 1000, "", nameof(Weight)); } = 1;

    /// <summary>The same zone with another reference, such as a target instead of a masking reference.</summary>
    /// <param name="reference">The reference.</param>
    public Zone ComparedWith(ColorReference reference) => this with { Reference = Guard.NotNull(reference) };

    /// <summary>The same zone over another stump.</summary>
    internal Zone On(Substrate stump) => this with { Stump = stump };

    /// <summary>The same zone with a wall of one thickness.</summary>
    /// <param name="wallMm">Thickness of the wall, 0.001 to 100 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public Zone WithWall(double wallMm) => this with
    {
        ThinnestMm = null,
        AvailableMm = Guard.InRange(wallMm, 1e-3, Layer.MaximumThicknessMm, "mm", "wall", Name),
    };

    /// <summary>Mean by the weights of the zones; the plain mean where all weights are 0.</summary>
    internal static double WeightedMean(IEnumerable<(Zone Zone, double Value)> items)
    {
        (double weights, double sum, double plain, int count) = (0, 0, 0, 0);
        foreach ((Zone zone, double value) in items)
        {
            (weights, sum, plain, count) = (
                weights + zone.Weight, sum + (zone.Weight * value), plain + value, count + 1);
        }

        return weights > 0 ? sum / weights : plain / count;
    }

    /// <inheritdoc/>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).NameOf(Name);
}
