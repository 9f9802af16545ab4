namespace CeramicOptics.Mapping;

/// <summary>
/// Limits of a suggested wall at single points: minima, maxima, locked walls, and a margin to which the wall tapers.
/// </summary>
/// <remarks>
/// Begin with <see cref="None"/>. Maxima and margin take precedence over the goal; where they keep the wall below it,
/// the suggestion says so. Everything is copied; immutable and safe to share.
/// </remarks>
public sealed class WallLimits
{
    private const double ThickestMm = 100, SteepestSlope = 10;

    private readonly double[] _minimaMm, _maximaMm;
    private readonly int[] _margin;

    private WallLimits(double[] minimaMm, double[] maximaMm, int[] margin, double edgeMm, double marginSlope) =>
        (_minimaMm, _maximaMm, _margin, EdgeMm, MarginSlope) = (minimaMm, maximaMm, margin, edgeMm, marginSlope);

    /// <summary>No limit.</summary>
    public static WallLimits None { get; } = new([], [], [], 0, 0);

    internal ReadOnlySpan<int> Margin => _margin;

    internal double EdgeMm { get; }

    internal double MarginSlope { get; }

    /// <summary>True when a wall may have to be thinner than asked.</summary>
    internal bool HasMaxima => _maximaMm.Length > 0 || _margin.Length > 0;

    /// <summary>The same with other minima and maxima.</summary>
    /// <param name="minimaMm">Least wall of each point, mm, 0 to 100; NaN for none; empty when no point has
    /// one.</param>
    /// <param name="maximaMm">Largest wall of each point, likewise. Where it equals the minimum the wall is locked: it
    /// does not move, and its neighbours follow it.</param>
    /// <exception cref="ArgumentException">The two have different lengths.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A wall is outside its range, or a minimum is above the maximum of
    /// its point; names the point.</exception>
    public WallLimits WithPoints(ReadOnlySpan<double> minimaMm, ReadOnlySpan<double> maximaMm)
    {
        if (!minimaMm.IsEmpty && !maximaMm.IsEmpty && minimaMm.Length != maximaMm.Length)
        {
            throw new ArgumentException(
                $"minimaMm ({Guard.Text(minimaMm.Length)}) and maximaMm ({Guard.Text(maximaMm.Length)}) must be "
                    + "equally long, or one of them empty.", nameof(maximaMm));
        }

        Check(minimaMm, "minimum");
        Check(maximaMm, "maximum");
        for (int i = 0; i < Math.Min(minimaMm.Length, maximaMm.Length); i++)
        {
            if (minimaMm[i] > maximaMm[i])
            {
                Guard.InRange(minimaMm[i], 0, maximaMm[i], "mm", $"minimum of point {Guard.Text(i)}");
            }
        }

        return new WallLimits(minimaMm.ToArray(), maximaMm.ToArray(), _margin, EdgeMm, MarginSlope);
    }

    /// <summary>The same with another margin, to which the wall tapers.</summary>
    /// <param name="points">Points of the margin, in any order.</param>
    /// <param name="edgeMm">Largest wall there, mm, 0 to 100.</param>
    /// <param name="slope">How much thicker the wall may be for each mm away from the margin, mm for mm, 0 to 10; it
    /// may be steeper than elsewhere.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public WallLimits WithMargin(ReadOnlySpan<int> points, double edgeMm, double slope)
    {
        Guard.InRange(edgeMm, 0, ThickestMm, "mm");
        Guard.InRange(slope, 0, SteepestSlope, "");
        return new WallLimits(_minimaMm, _maximaMm, points.ToArray(), edgeMm, slope);
    }

    internal double MinimumMm(int point) => _minimaMm.Length == 0 ? double.NaN : _minimaMm[point];

    internal double MaximumMm(int point) => _maximaMm.Length == 0 ? double.NaN : _maximaMm[point];

    /// <summary>True when the wall of a point does not move.</summary>
    internal bool IsLocked(int point) => MinimumMm(point) == MaximumMm(point);

    /// <summary>Limits are those of the points of the mesh.</summary>
    internal void RequireFor(MapMesh mesh)
    {
        int given = Math.Max(_minimaMm.Length, _maximaMm.Length);
        if (given != 0)
        {
            mesh.RequireLength(given, "limits");
        }

        foreach (int point in _margin)
        {
            if ((uint)point >= (uint)mesh.PointCount)
            {
                Guard.InRange(point, 0, mesh.PointCount - 1, "point of the margin");
            }
        }
    }

    private static void Check(ReadOnlySpan<double> wallsMm, string name)
    {
        for (int i = 0; i < wallsMm.Length; i++)
        {
            if (!double.IsNaN(wallsMm[i]) && !(wallsMm[i] >= 0 && wallsMm[i] <= ThickestMm))
            {
                Guard.InRange(wallsMm[i], 0, ThickestMm, "mm", $"{name} of point {Guard.Text(i)}");
            }
        }
    }
}
