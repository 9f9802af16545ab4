using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Matching;

/// <summary>The choices when colours are matched.</summary>
/// <remarks>Immutable, equal by value; materials are compared by reference.</remarks>
public sealed record MatchOptions
{
    /// <summary>Ceramics to choose from; everything else is that of the restoration unless more choices are
    /// given.</summary>
    /// <param name="ceramics">At least one; one of them serves all zones.</param>
    /// <exception cref="ArgumentException">
    /// An empty list, two of one name (family and grade, or material), or constants of different theories.
    /// </exception>
    public MatchOptions(IEnumerable<Ceramic> ceramics) =>
        Ceramics = DecisionGuard.Comparable(ceramics);

    /// <summary>The ceramics.</summary>
    internal IReadOnlyList<Ceramic> Ceramics { get; }

    /// <summary>
    /// Cements with their films, each instead of what lies between the restoration and its stump; empty: the
    /// restoration's own cement or coupling.
    /// </summary>
    /// <exception cref="ArgumentException">Two of one name and thickness.</exception>
    public IReadOnlyList<Layer> Cements
    {
        get;
        init => field = DecisionGuard.EachOnce(Guard.Copy(value, name: nameof(Cements)), nameof(Cements));
    } = Guard.Copy<Layer>([]);

    /// <summary>
    /// Veneering ceramics that may be laid over a core that is cut back; empty: the restoration's own veneer, or none
    /// where it has none.
    /// </summary>
    /// <exception cref="ArgumentException">Two of one name.</exception>
    public IReadOnlyList<Material> Veneers
    {
        get;
        init => field = Guard.EachOnce(
            Guard.Copy(value, name: nameof(Veneers)), material => material.Name, nameof(Veneers));
    } = Guard.Copy<Material>([]);

    /// <summary>
    /// Shares of the wall that each of <see cref="Veneers"/> may take, each 0.01 to 0.99; 0.3 and 0.5 by default.
    /// </summary>
    /// <exception cref="ArgumentException">An empty list, or a share given twice.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A share outside its range.</exception>
    public IReadOnlyList<double> VeneerShares
    {
        get;
        init => field = Guard.EachOnce(
            Guard.Copy(
                Guard.NotNull(value, nameof(VeneerShares))
                    .Select(share => Guard.InRange(share, 0.01, 0.99, "", "veneer share")),
                minimumCount: 1, nameof(VeneerShares)),
            share => Guard.Text(share), nameof(VeneerShares));
    } = Guard.Copy([0.3, 0.5]);

    /// <summary>
    /// True when a wall of one ceramic alone is a choice beside <see cref="Veneers"/>; without effect where the
    /// restoration's own veneer is kept.
    /// </summary>
    public bool AllowsMonolithic { get; init; } = true;

    /// <summary>
    /// Largest step between the wall thicknesses that are tried in a zone with a range, mm, 0.001 to 1; 0.05 by
    /// default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ThicknessStepMm
    {
        get;
        init => field = Guard.InRange(value, 0.001, 1, "mm", nameof(ThicknessStepMm));
    } = 0.05;

    /// <summary>How many of the best candidates are kept, 1 to 100,000; 20 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int Keep { get; init => field = Guard.InRange(value, 1, 100_000, nameof(Keep)); } = 20;

    /// <summary>Every combination of ceramic, veneer, share and cement, as a restoration.</summary>
    internal IReadOnlyList<Restoration> ChoicesOf(Restoration restoration)
    {
        List<Veneer?> veneers =
            [.. Veneers.SelectMany(material => VeneerShares.Select(share => Veneer.OfShare(material, share)))];
        if (veneers.Count == 0 && restoration.Veneer is not null)
        {
            veneers.Add(restoration.Veneer);
        }
        else if (AllowsMonolithic)
        {
            veneers.Insert(0, null);
        }

        if (veneers.Count == 0)
        {
            throw new ArgumentException(
                "Neither a wall of one ceramic nor a veneer is allowed, so there is nothing to choose.");
        }

        return Guard.Copy(
            from ceramic in Ceramics
            from veneer in veneers
            from cement in Cements.Count == 0 ? (IReadOnlyList<Layer?>)[null] : Cements
            let made = restoration.WithCore(ceramic) with { Veneer = veneer }
            select cement is null ? made : made.WithCement(cement));
    }
}
