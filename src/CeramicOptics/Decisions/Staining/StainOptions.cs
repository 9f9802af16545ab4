namespace CeramicOptics.Decisions.Staining;

/// <summary>The layer that carries the stain, the pigments to choose from, and their limits.</summary>
/// <remarks>Immutable, equal by value; materials and pigments are compared by reference.</remarks>
public sealed record StainOptions
{
    /// <summary>Largest number of pigments to choose from.</summary>
    internal const int MostPigments = 24;

    /// <summary>A layer and its pigments.</summary>
    /// <param name="layer">The layer that carries the stain.</param>
    /// <param name="pigments">Pigments to choose from, 1 to 24, of the carrier's grid and model.</param>
    /// <exception cref="ArgumentException">No or too many pigments, two of one name, or one of another
    /// grid or model.</exception>
    public StainOptions(StainLayer layer, IEnumerable<Pigment> pigments)
    {
        Layer = Guard.NotNull(layer);
        Pigments = Guard.Copy(pigments, minimumCount: 1);
        if (Pigments.Count > MostPigments)
        {
            throw new ArgumentException(
                $"pigments holds {Guard.Text(Pigments.Count)} items; at most {Guard.Text(MostPigments)} can be "
                    + "combined.", nameof(pigments));
        }

        Guard.EachOnce(Pigments, pigment => pigment.Name, nameof(pigments));
        foreach (Pigment pigment in Pigments)
        {
            layer.RequireServes(pigment);
        }
    }

    /// <summary>The layer that carries the stain.</summary>
    internal StainLayer Layer { get; }

    /// <summary>Pigments to choose from.</summary>
    internal IReadOnlyList<Pigment> Pigments { get; }

    /// <summary>Where the layer lies; on the surface by default.</summary>
    public StainPlacement Placement { get; init => field = Guard.Defined(value, nameof(Placement)); } =
        StainPlacement.Surface;

    /// <summary>Largest load of one pigment, 1e-9 to 1e6; 1 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double MaximumLoad { get; init => field = Guard.InRange(value, 1e-9, 1e6, "", nameof(MaximumLoad)); } = 1;

    /// <summary>Largest number of pigments in one mixture, 1 to 4; 3 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int MaximumPigments { get; init => field = Guard.InRange(value, 1, 4, nameof(MaximumPigments)); } = 3;
}
