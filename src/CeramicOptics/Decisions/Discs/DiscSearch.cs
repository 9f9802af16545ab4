using CeramicOptics.Characterization;

namespace CeramicOptics.Decisions.Discs;

/// <summary>How certain an answer is with some discs, and which disc makes it most certain.</summary>
/// <param name="errors">What discs tell of K and S.</param>
/// <param name="answer">The answer.</param>
/// <param name="goal">What it is.</param>
/// <param name="backings">Backings, in the order of the readings of each disc that could be made.</param>
/// <param name="candidates">Discs that could be made, each read over all backings.</param>
internal sealed class DiscSearch(
    DiscErrors errors, AnswerAt answer, DiscGoal goal, IReadOnlyList<Backing> backings,
    IReadOnlyList<PooledDisc> candidates)
{
    private readonly Dictionary<PlannedDisc, PooledDisc> _known = [];

    /// <summary>
    /// Standard uncertainty of the answer from K and S by the fit of these discs; null where they leave K or S open.
    /// </summary>
    public double? UncertaintyOf(IReadOnlyList<PooledDisc> discs) =>
        errors.Of(discs) is { } found ? answer.Uncertainty(found) : null;

    /// <summary>
    /// Each disc that could be made beside others, over all backings or one of them, the best first; without those that
    /// leave K or S open.
    /// </summary>
    public IReadOnlyList<PlannedDisc> Beside(IReadOnlyList<PooledDisc> present)
    {
        List<PlannedDisc> found = [];
        foreach (PooledDisc disc in candidates)
        {
            Add(disc, backings);
            for (int b = 0; b < backings.Count && backings.Count > 1; b++)
            {
                Add(disc with { Readings = [disc.Readings[b]] }, [backings[b]]);
            }
        }

        return [.. found.OrderBy(disc => disc.StandardUncertainty)];

        void Add(PooledDisc disc, IReadOnlyList<Backing> over)
        {
            if (UncertaintyOf([.. present, disc]) is double fromMaterial)
            {
                PlannedDisc planned = new(goal, disc.ThicknessMm, Guard.Copy(over), fromMaterial, answer.FromOthers);
                _known.Add(planned, disc);
                found.Add(planned);
            }
        }
    }

    /// <summary>The readings of a disc that was found.</summary>
    public PooledDisc PooledOf(PlannedDisc disc) => _known[disc];
}
