namespace CeramicOptics.Mapping.Slopes;

/// <summary>Walls of all points of a mesh, those without data too, with what an update needs.</summary>
/// <remarks>
/// The ceiling is the largest wall that maxima and margin allow: the least, over all points, of their maximum plus
/// slope times distance. Above the largest demand it does not matter, and is left out. The heights are the smallest
/// field that meets each point's demand, or the ceiling where that is lower; no wall is above the ceiling. A locked
/// wall stays, whatever other limits ask.
/// </remarks>
internal sealed class WallField
{
    private readonly MapMesh _mesh;
    private readonly double _slope, _highestMm;
    private readonly WallLimits _limits;
    private readonly double[] _asked, _heights;
    private readonly double[]? _ceiling;

    private WallField(
        MapMesh mesh, double slope, WallLimits limits, double highestMm, double[] asked, double[] heights,
        double[]? ceiling) =>
        (_mesh, _slope, _limits, _highestMm, _asked, _heights, _ceiling) =
        (mesh, slope, limits, highestMm, asked, heights, ceiling);

    /// <summary>The field of demands.</summary>
    /// <param name="mesh">The points.</param>
    /// <param name="slope">Largest change of the wall for a step along the surface.</param>
    /// <param name="limits">Limits of single points.</param>
    /// <param name="asked">What each point asks, 0 for nothing; kept, and lowered to the ceiling.</param>
    /// <param name="previous">Another field, of which is used what still holds; null for none.</param>
    /// <param name="report">Receives the completed fraction.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static WallField Make(
        MapMesh mesh, double slope, WallLimits limits, double[] asked, WallField? previous, Action<double>? report,
        CancellationToken cancellation)
    {
        WallField? known = previous is not null && ReferenceEquals(previous._mesh, mesh) && previous._slope == slope
            ? previous
            : null;
        double highestMm = 0;
        foreach (double mm in asked)
        {
            highestMm = Math.Max(highestMm, mm);
        }

        double[]? ceiling = null;
        double begin = 0;
        if (limits.HasMaxima)
        {
            if (known is not null && ReferenceEquals(known._limits, limits) && known._highestMm >= highestMm)
            {
                (ceiling, highestMm) = (known._ceiling!, known._highestMm);
            }
            else
            {
                begin = 0.4;
                ceiling = CeilingOf(
                    mesh, slope, limits, highestMm, report is null ? null : share => report(begin * share),
                    cancellation);
            }

            for (int i = 0; i < asked.Length; i++)
            {
                asked[i] = limits.IsLocked(i) ? limits.MinimumMm(i) : Math.Min(asked[i], ceiling[i]);
            }
        }

        SlopeField field = new(
            mesh, slope, report is null ? null : share => report(begin + ((1 - begin) * share)), cancellation);
        double[] heights = (double[])(known?._heights ?? asked).Clone();
        if (known is null)
        {
            field.Raise(heights);
        }
        else
        {
            field.Update(known._asked, asked, heights);
        }

        return new WallField(mesh, slope, limits, highestMm, asked, heights, ceiling);
    }

    /// <summary>The wall of a point, mm; 0 where nothing is asked.</summary>
    public double WallMm(int point) =>
        _ceiling is null ? _heights[point]
        : _limits.IsLocked(point) ? _limits.MinimumMm(point)
        : Math.Min(_heights[point], _ceiling[point]);

    /// <summary>Number of locked walls from which an edge is steeper than the limit, because other limits contradict
    /// them.</summary>
    public int SteepLocks()
    {
        const double Rounding = 1e-9;
        int steep = 0;
        for (int i = 0; _ceiling is not null && i < _heights.Length; i++)
        {
            if (!(_limits.IsLocked(i) && _ceiling[i] < _limits.MinimumMm(i)))
            {
                continue;
            }

            for (int k = _mesh.First[i]; k < _mesh.First[i + 1]; k++)
            {
                if (Math.Abs(WallMm(i) - WallMm(_mesh.Neighbours[k])) > (_slope * _mesh.LengthsMm[k]) + Rounding)
                {
                    steep++;
                    break;
                }
            }
        }

        return steep;
    }

    // The smallest field of the negative maxima.
    private static double[] CeilingOf(
        MapMesh mesh, double slope, WallLimits limits, double highestMm, Action<double>? report,
        CancellationToken cancellation)
    {
        double[] lowered = new double[mesh.PointCount];
        for (int i = 0; i < lowered.Length; i++)
        {
            double maximum = limits.MaximumMm(i);
            lowered[i] = maximum < highestMm ? -maximum : -highestMm;
        }

        new SlopeField(mesh, slope, report, cancellation).Raise(lowered);
        if (limits.Margin.Length > 0)
        {
            double[] margin = new double[lowered.Length];
            margin.AsSpan().Fill(-highestMm);
            foreach (int point in limits.Margin)
            {
                margin[point] = Math.Max(-highestMm, -limits.EdgeMm);
            }

            new SlopeField(mesh, limits.MarginSlope, report, cancellation).Raise(margin);
            for (int i = 0; i < lowered.Length; i++)
            {
                lowered[i] = Math.Max(lowered[i], margin[i]);
            }
        }

        for (int i = 0; i < lowered.Length; i++)
        {
            lowered[i] = -lowered[i];
        }

        return lowered;
    }
}
