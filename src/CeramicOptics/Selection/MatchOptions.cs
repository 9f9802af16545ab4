using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>What there is to choose from when colours are matched.</summary>
public sealed record MatchOptions
{
    /// <summary>Ceramics and cements to choose from.</summary>
    /// <param name="ceramics">At least one; one of them serves all zones.</param>
    /// <param name="cements">At least one cement with the film it makes; it lies under all other layers.</param>
    /// <exception cref="ArgumentException">An empty list.</exception>
    public MatchOptions(IEnumerable<Ceramic> ceramics, IEnumerable<Layer> cements)
    {
        Ceramics = Guard.Copy(ceramics, minimumCount: 1);
        Cements = Guard.Copy(cements, minimumCount: 1);
    }

    /// <summary>The ceramics.</summary>
    public IReadOnlyList<Ceramic> Ceramics { get; }

    /// <summary>The cements with their films.</summary>
    public IReadOnlyList<Layer> Cements { get; }

    /// <summary>True when each zone may have a cement of its own; otherwise one serves all.</summary>
    public bool CementPerZone { get; init; }

    /// <summary>Veneering ceramics that may be laid over a core that is cut back; none unless told.</summary>
    public IReadOnlyList<Material> Veneers { get; init => field = Guard.Copy(value, name: nameof(Veneers)); } = [];

    /// <summary>Shares of the wall that the veneer may take, each above 0 and below 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A share outside its range.</exception>
    public IReadOnlyList<double> VeneerShares
    {
        get;
        init => field = Guard.Copy(Guard.NotNull(value).Select(share => Guard.InRange(share, 0.01, 0.99, "", "veneer share")), name: nameof(VeneerShares));
    } = [0.3, 0.5];

    /// <summary>True when a wall of one ceramic alone is among the choices.</summary>
    public bool AllowsMonolithic { get; init; } = true;

    /// <summary>Step between the wall thicknesses that are tried in a zone with a range, mm, 0.001 to 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ThicknessStepMm { get; init => field = Guard.InRange(value, 0.001, 1, "mm", nameof(ThicknessStepMm)); } = 0.05;

    /// <summary>How many of the best candidates are kept, 1 to 100000.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int Keep { get; init => field = Guard.InRange(value, 1, 100_000, nameof(Keep)); } = 20;

    /// <summary>Veneers to lay over each ceramic; null for none.</summary>
    internal IReadOnlyList<Material?> VeneerChoices
    {
        get
        {
            Material?[] choices = [.. AllowsMonolithic ? (Material?[])[null] : [], .. Veneers];
            return choices.Length > 0
                ? choices
                : throw new ArgumentException("Neither a wall of one ceramic nor a veneer is allowed, so there is nothing to choose.");
        }
    }
}
