using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>A part of a restoration with its own stump, available thickness and reference, such as neck, body or edge.</summary>
public sealed record Zone
{
    /// <summary>A zone.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="substrate">The stump there.</param>
    /// <param name="availableThicknessMm">Thickness that is there for the ceramic, above 0 to 100 mm.</param>
    /// <param name="reference">What the colour there is compared with.</param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public Zone(string name, Substrate substrate, double availableThicknessMm, MaskingReference reference)
    {
        Name = Guard.NotBlank(name);
        Substrate = Guard.NotNull(substrate);
        AvailableThicknessMm = Guard.InRange(availableThicknessMm, 1e-3, Layer.MaximumThicknessMm, "mm");
        Reference = Guard.NotNull(reference);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>The stump there.</summary>
    public Substrate Substrate { get; }

    /// <summary>Thickness that is there for the ceramic, mm.</summary>
    public double AvailableThicknessMm { get; }

    /// <summary>What the colour there is compared with.</summary>
    public MaskingReference Reference { get; }

    /// <summary>Thinnest ceramic wall (with its veneer) to consider when colours are matched, mm; null: just the available thickness.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not between 0.001 mm and the available thickness.</exception>
    public double? ThinnestMm
    {
        get;
        init => field = value is null ? null : Guard.InRange(value.Value, 1e-3, AvailableThicknessMm, "mm", nameof(ThinnestMm));
    }

    /// <summary>Weight of this zone in the mean over zones, 0 to 1000; 1 unless told otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double Weight { get; init => field = Guard.InRange(value, 0, 1000, "", nameof(Weight)); } = 1;

    /// <summary>Mean by the weights of the zones; the plain mean where all weights are 0.</summary>
    internal static double WeightedMean(IEnumerable<(Zone Zone, double Value)> items)
    {
        (double weights, double sum, double plain, int count) = (0, 0, 0, 0);
        foreach ((Zone zone, double value) in items)
        {
            (weights, sum, plain, count) = (weights + zone.Weight, sum + (zone.Weight * value), plain + value, count + 1);
        }

        return weights > 0 ? sum / weights : plain / count;
    }

    /// <inheritdoc/>
    public override string ToString() => Name;
}
