namespace CeramicOptics.Selection;

/// <summary>The mixture of stains that comes nearest to the targets, and what remains.</summary>
/// <param name="Parts">The pigments with their loads, the largest load first; empty when no stain helps.</param>
/// <param name="Without">The limiting illuminant at each place with the carrier alone.</param>
/// <param name="With">The limiting illuminant at each place with the mixture.</param>
/// <param name="Metamerism">
/// Largest CIEDE2000 spread, over places, of the remaining difference between illuminants: the norm of the change of the L*a*b* offset from the
/// target when the light changes from the first colorimeter to another. 0 with one colorimeter.
/// </param>
/// <param name="Meets">True when every place meets the criterion under every illuminant.</param>
/// <param name="Mixtures">How many sets of pigments were optimized.</param>
/// <param name="Starts">From how many starting points the set chosen was optimized anew.</param>
/// <param name="StartsAgreeing">How many of these came to the same largest difference (to 0.01).</param>
/// <param name="Cautions">What must be shown with the recipe.</param>
public sealed record StainRecipe(
    IReadOnlyList<StainPart> Parts,
    IReadOnlyList<WorstCase> Without,
    IReadOnlyList<WorstCase> With,
    double Metamerism,
    bool Meets,
    int Mixtures,
    int Starts,
    int StartsAgreeing,
    IReadOnlyList<Caution> Cautions)
{
    /// <summary>Largest difference over places with the carrier alone.</summary>
    public double WorstWithout => Without.Max(place => place.Difference);

    /// <summary>Largest difference over places that remains.</summary>
    public double WorstWith => With.Max(place => place.Difference);
}
