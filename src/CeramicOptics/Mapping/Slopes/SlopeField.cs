using System.Buffers;

namespace CeramicOptics.Mapping.Slopes;

/// <summary>
/// The smallest field over the points of a mesh that is nowhere below what is asked and along no edge steeper than a
/// slope: h(i) = max over j of asked(j) - slope * distance(i, j) along the edges.
/// </summary>
/// <remarks>
/// A height is what its point asks, or that of a neighbour less one product, rounded. The field is the least one that
/// keeps all these inequalities in rounded numbers, whatever the order of the work: so an update gives the very numbers
/// of a full computation.
/// </remarks>
internal sealed class SlopeField(
    MapMesh mesh, double slope, Action<double>? report, CancellationToken cancellation)
{
    // Points between two looks at progress and cancellation.
    private const int Often = 4096;

    // Shares of all points from which on other ways are faster; the field is the same.
    private const double ManyLift = 0.1, ManyFall = 0.1;

    private readonly int[] _first = mesh.First, _neighbours = mesh.Neighbours;
    private readonly float[] _lengthsMm = mesh.LengthsMm;

    /// <summary>Raises what is asked to the field.</summary>
    /// <param name="heights">What points ask, finite; receives the field.</param>
    public void Raise(double[] heights)
    {
        (double bottom, double top) = Ends(heights);
        if (!(top > bottom))
        {
            return;
        }

        if (LiftingShare(heights, bottom) > ManyLift)
        {
            Sweep(heights);
        }

        using HeightQueue queue = new(heights.Length, bottom, top);
        for (int i = 0; i < heights.Length; i++)
        {
            Look(i, 0.5 * i / heights.Length);
            if (heights[i] > bottom && Lifts(i, heights))
            {
                queue.Put(i, heights[i]);
            }
        }

        Run(queue, heights);
    }

    /// <summary>Changes a field after what is asked has changed.</summary>
    /// <param name="before">What points asked.</param>
    /// <param name="asked">What they ask now.</param>
    /// <param name="heights">The field of what they asked; receives that of what they ask now.</param>
    public void Update(ReadOnlySpan<double> before, ReadOnlySpan<double> asked, double[] heights)
    {
        int count = heights.Length;
        int[] fallen = ArrayPool<int>.Shared.Rent(count);
        bool[] falls = ArrayPool<bool>.Shared.Rent(count);
        try
        {
            falls.AsSpan(0, count).Clear();
            double most = count * ManyFall;
            int number = Fallen(before, asked, heights, fallen, falls, most);
            if (number > most)
            {
                asked.CopyTo(heights);
                Raise(heights);
                return;
            }

            (double bottom, double top) = Ends(asked);
            using HeightQueue queue = new(count, bottom, top);
            for (int i = 0; i < count; i++)
            {
                if (falls[i])
                {
                    heights[i] = asked[i];
                }
                else if (asked[i] > heights[i])
                {
                    heights[i] = asked[i];
                    queue.Put(i, heights[i]);
                }
            }

            for (int n = 0; n < number; n++)
            {
                Look(n, 0.25 + (0.25 * n / number));
                int point = fallen[n];
                heights[point] = Math.Max(heights[point], AskedByNeighbours(point, heights));
                if (Lifts(point, heights))
                {
                    queue.Put(point, heights[point]);
                }
            }

            Run(queue, heights);
        }
        finally
        {
            ArrayPool<int>.Shared.Return(fallen);
            ArrayPool<bool>.Shared.Return(falls);
        }
    }

    // One point of 16 speaks for all.
    private double LiftingShare(double[] heights, double bottom)
    {
        const int Step = 16;
        int lifting = 0;
        for (int i = 0; i < heights.Length; i += Step)
        {
            lifting += heights[i] > bottom && Lifts(i, heights) ? 1 : 0;
        }

        return lifting * (double)Step / heights.Length;
    }

    // Each point asks its neighbours, in the order of the points and back: most come close to where they end.
    private void Sweep(double[] heights)
    {
        for (int i = 0; i < heights.Length; i++)
        {
            Look(i, 0);
            heights[i] = Math.Max(heights[i], AskedByNeighbours(i, heights));
        }

        for (int i = heights.Length - 1; i >= 0; i--)
        {
            Look(i, 0);
            heights[i] = Math.Max(heights[i], AskedByNeighbours(i, heights));
        }
    }

    private static (double Bottom, double Top) Ends(ReadOnlySpan<double> heights)
    {
        (double bottom, double top) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (double height in heights)
        {
            bottom = Math.Min(bottom, height);
            top = Math.Max(top, height);
        }

        return (bottom, top);
    }

    // Points whose height may rest on what is no longer asked: those that asked for it, and along the edges all that
    // stand exactly as high as such a neighbour asks, unless their own demand holds them. Ends when they are too many.
    private int Fallen(
        ReadOnlySpan<double> before, ReadOnlySpan<double> asked, double[] heights, int[] fallen, bool[] falls,
        double most)
    {
        int number = 0;
        for (int i = 0; i < heights.Length; i++)
        {
            if (asked[i] < before[i] && heights[i] == before[i])
            {
                (falls[i], fallen[number++]) = (true, i);
            }
        }

        for (int n = 0; n < number && number <= most; n++)
        {
            Look(n, 0.25 * n / number);
            int point = fallen[n];
            for (int k = _first[point]; k < _first[point + 1]; k++)
            {
                int other = _neighbours[k];
                if (!falls[other] && heights[other] == heights[point] - (slope * _lengthsMm[k])
                    && !(asked[other] >= heights[other]))
                {
                    (falls[other], fallen[number++]) = (true, other);
                }
            }
        }

        return number;
    }

    private double AskedByNeighbours(int point, double[] heights)
    {
        double most = double.NegativeInfinity;
        for (int k = _first[point]; k < _first[point + 1]; k++)
        {
            most = Math.Max(most, heights[_neighbours[k]] - (slope * _lengthsMm[k]));
        }

        return most;
    }

    private bool Lifts(int point, double[] heights)
    {
        double height = heights[point];
        for (int k = _first[point]; k < _first[point + 1]; k++)
        {
            if (height - (slope * _lengthsMm[k]) > heights[_neighbours[k]])
            {
                return true;
            }
        }

        return false;
    }

    private void Run(HeightQueue queue, double[] heights)
    {
        int done = 0;
        for (int point = queue.Take(); point >= 0; point = queue.Take(), done++)
        {
            Look(done, 0.5 + (0.5 * queue.Done));
            double height = heights[point];
            for (int k = _first[point]; k < _first[point + 1]; k++)
            {
                int other = _neighbours[k];
                double asked = height - (slope * _lengthsMm[k]);
                if (asked > heights[other])
                {
                    heights[other] = asked;
                    queue.Put(other, asked);
                }
            }
        }
    }

    private void Look(int done, double share)
    {
        if (done % Often == 0)
        {
            cancellation.ThrowIfCancellationRequested();
            report?.Invoke(share);
        }
    }
}
