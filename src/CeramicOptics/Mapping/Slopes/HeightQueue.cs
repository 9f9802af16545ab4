using System.Buffers;

namespace CeramicOptics.Mapping.Slopes;

/// <summary>Points that wait for their turn, the highest first, in 4096 steps of height and in turn within a
/// step.</summary>
/// <remarks>
/// Each step is a ring of points, with an entry of its own behind those of the points, so that a point that has risen
/// changes its place without a search. Memory comes from the shared pool.
/// </remarks>
internal sealed class HeightQueue : IDisposable
{
    private const int Steps = 4096, NotWaiting = -1;

    private readonly int _points;
    private readonly int[] _next, _before;
    private readonly double _top, _perMm;
    private int _step = Steps;

    public HeightQueue(int points, double bottom, double top)
    {
        (_points, _top, _perMm) = (points, top, Steps / Math.Max(top - bottom, 1e-9));
        _next = ArrayPool<int>.Shared.Rent(points + Steps);
        _before = ArrayPool<int>.Shared.Rent(points + Steps);
        _next.AsSpan(0, points).Fill(NotWaiting);
        for (int ring = points; ring < points + Steps; ring++)
        {
            (_next[ring], _before[ring]) = (ring, ring);
        }
    }

    /// <summary>Share of the steps that are done.</summary>
    public double Done => _step / (double)Steps;

    /// <summary>Lets a point wait at its height; one that waits already moves.</summary>
    public void Put(int point, double height)
    {
        if (_next[point] != NotWaiting)
        {
            Unlink(point);
        }

        int step = Math.Max(0, Math.Min(Steps - 1, (int)((_top - height) * _perMm)));
        _step = Math.Min(_step, step);
        int ring = _points + step, last = _before[ring];
        (_next[point], _before[point]) = (ring, last);
        (_next[last], _before[ring]) = (point, point);
    }

    /// <summary>The next point; negative when none waits.</summary>
    public int Take()
    {
        for (; _step < Steps; _step++)
        {
            int ring = _points + _step, point = _next[ring];
            if (point != ring)
            {
                Unlink(point);
                _next[point] = NotWaiting;
                return point;
            }
        }

        return NotWaiting;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        ArrayPool<int>.Shared.Return(_next);
        ArrayPool<int>.Shared.Return(_before);
    }

    private void Unlink(int point)
    {
        (int next, int before) = (_next[point], _before[point]);
        (_next[before], _before[next]) = (next, before);
    }
}
