using System.Text.Json.Serialization;
using CeramicOptics.Mapping.Slopes;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>
/// A wall thickness for every point of a surface: thick enough for the goal, and nowhere steeper than can be made.
/// </summary>
/// <remarks>
/// The wall is that of the restoration, veneer and core together; glaze, liner and cement are not part of it. Each
/// point is judged over the stump of its own zone. Immutable and safe to share.
/// </remarks>
[JsonConverter(typeof(ReportConverter))]
public sealed class WallSuggestion : Answer
{
    private readonly WallField _field;
    private readonly ThicknessGoal _goal;
    private readonly double[] _thicknessesMm, _reductionsMm;
    private readonly WallStatus[] _statuses;
    private readonly int[] _counts = new int[(int)WallStatus.NoData + 1];

    private WallSuggestion(
        WallField field, ReadOnlySpan<double> thicknessesMm, WallStatus[] statuses, ThicknessGoal goal,
        IEnumerable<Caution> cautions)
        : base(Guard.Copy(cautions))
    {
        (_field, _goal, _statuses) = (field, goal, statuses);
        _thicknessesMm = new double[statuses.Length];
        _reductionsMm = new double[statuses.Length];
        for (int i = 0; i < statuses.Length; i++)
        {
            double wall = field.WallMm(i);
            bool isWall = statuses[i] != WallStatus.NoData && !(statuses[i] == WallStatus.NoAnswer && wall == 0);
            _counts[(int)statuses[i]]++;
            _thicknessesMm[i] = isWall ? wall : double.NaN;
            _reductionsMm[i] = isWall ? Math.Max(0, wall - thicknessesMm[i]) : double.NaN;
        }
    }

    /// <summary>
    /// Suggested thickness of each point, mm; NaN where nothing is suggested. Where <see cref="Statuses"/> is not
    /// <see cref="WallStatus.MeetsGoal"/> it is what limits allow or neighbours ask, and the stump can show.
    /// </summary>
    public ReadOnlySpan<double> ThicknessesMm => _thicknessesMm;

    /// <summary>
    /// How much more room each point needs than is available, mm, 0 or more: tooth that would have to be removed where
    /// the outside of the wall cannot move. NaN where nothing is suggested.
    /// </summary>
    public ReadOnlySpan<double> ReductionsMm => _reductionsMm;

    /// <summary>Status of the wall at each point.</summary>
    public ReadOnlySpan<WallStatus> Statuses => _statuses;

    /// <summary>Finds the thinnest such wall.</summary>
    /// <param name="map">The zones with their requirements.</param>
    /// <param name="mesh">The points and their neighbours.</param>
    /// <param name="thicknessesMm">Available thickness at each point, mm; NaN for no data.</param>
    /// <param name="maximumSlope">Largest change of thickness for a step along the surface, mm for mm, 0 to 10.</param>
    /// <param name="zones">Zone of each point; empty where the map has one.</param>
    /// <param name="goal">Which minimum; the recommended one by default.</param>
    /// <param name="limits">Minima, maxima, locked walls and margin; none when null.</param>
    /// <param name="previous">
    /// A suggestion for the same mesh and slope, for speed alone: where little has changed only that is computed again.
    /// It stays as it is, and the answer is identical to that without it.
    /// </param>
    /// <param name="progress">Receives the completed fraction, 0 to 1, roughly.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">Lengths differ from the number of points of the mesh, or the zones of
    /// several are not given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A zone, the slope, the goal or a point of the margin is outside
    /// its range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    /// <remarks>
    /// A point asks for the minimum of its zone or its own, whichever is larger. In a zone without an answer it asks
    /// for the structural minimum, if one is given, and a point without data asks for its own minimum only; both let
    /// pass what others ask, so that the slope holds across them. Without maxima the wall is the smallest field that is
    /// nowhere below what is asked and along no edge steeper than the limit: the largest, over all points, of what they
    /// ask less slope times distance along the edges. Maxima and margin make a ceiling in the same way: the least, over
    /// all points, of their maximum plus slope times distance. No wall is above the ceiling and no point asks for more;
    /// what does not meet the goal then has a status and a caution. Only the margin's own slope, and locked walls that
    /// other limits contradict, can be steeper than the limit. Lengths of edges are in single precision.
    /// </remarks>
    public static WallSuggestion Find(
        ThicknessMap map,
        MapMesh mesh,
        ReadOnlySpan<double> thicknessesMm,
        double maximumSlope,
        ReadOnlySpan<byte> zones = default,
        ThicknessGoal goal = ThicknessGoal.Recommended,
        WallLimits? limits = null,
        WallSuggestion? previous = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(map);
        Guard.NotNull(mesh);
        Guard.InRange(maximumSlope, 0, 10, "");
        Guard.Defined(goal);
        mesh.RequireLength(thicknessesMm.Length, nameof(thicknessesMm));
        if (!zones.IsEmpty)
        {
            mesh.RequireLength(zones.Length, nameof(zones));
        }

        limits ??= WallLimits.None;
        limits.RequireFor(mesh);
        cancellation.ThrowIfCancellationRequested();
        WallZones known = new(map, goal);
        double[] asked = new double[thicknessesMm.Length];
        for (int i = 0; i < asked.Length; i++)
        {
            int zone = zones.IsEmpty ? 0 : zones[i];
            if (zones.IsEmpty ? map.Zones.Count > 1 : zone >= known.Count)
            {
                map.ZoneOf(zones, i);
            }

            asked[i] = known.AskedMm(zone, thicknessesMm[i], limits.MinimumMm(i));
        }

        double reported = 0;
        Action<double>? report = progress is null ? null : share => progress.Report(
            reported = Math.Max(reported, 0.9 * share));
        WallField field = WallField.Make(
            mesh, maximumSlope, limits, asked, previous?._field, report, cancellation);
        WallStatus[] statuses = new WallStatus[thicknessesMm.Length];
        for (int i = 0; i < statuses.Length; i++)
        {
            statuses[i] = known.StatusOf(
                zones.IsEmpty ? 0 : zones[i], thicknessesMm[i], field.WallMm(i), limits.MinimumMm(i));
        }

        WallSuggestion suggestion = new(
            field, thicknessesMm, statuses, goal, known.Cautions(field.SteepLocks()));
        progress?.Report(1);
        return suggestion;
    }

    /// <summary>How many points have a status.</summary>
    /// <param name="status">The status.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such status.</exception>
    public int Count(WallStatus status) => _counts[(int)Guard.Defined(status)];

    /// <summary>For example "2000 points: 1988 with 0.62 to 1.10 mm suggested for review, 0 that miss the goal, 12
    /// without an answer"; with other goals "reliable by colour" or "by colour".</summary>
    private protected override string InWords(Language language)
    {
        (double thinnest, double thickest) = (double.PositiveInfinity, double.NegativeInfinity);
        for (int i = 0; i < _statuses.Length; i++)
        {
            if (_statuses[i] == WallStatus.MeetsGoal)
            {
                thinnest = Math.Min(thinnest, _thicknessesMm[i]);
                thickest = Math.Max(thickest, _thicknessesMm[i]);
            }
        }

        int without = Count(WallStatus.NoAnswer) + Count(WallStatus.NoData);
        int meet = Count(WallStatus.MeetsGoal), miss = _statuses.Length - meet - without;
        return meet == 0
            ? language.Text("WallSuggestion.None", _statuses.Length, _goal, miss, without)
            : language.Text("WallSuggestion", _statuses.Length, meet, thinnest, thickest, _goal, miss, without);
    }
}
