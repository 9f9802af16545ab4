using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>A surface as nodes of one size, each the middle of the smaller ones in a cell of a cubic grid.</summary>
/// <remarks>
/// Smaller nodes of one cell stay apart where their normals point to different sides, so that the two faces of a thin
/// wall never become one. Nodes stand in buckets as wide as the kernel of the level reaches. Immutable.
/// </remarks>
internal sealed class SurfaceLevel
{
    private const int CellsInReach = 8;

    // Nodes between two looks at cancellation.
    private const int Often = 4096;

    private readonly int[] _bucketFirst, _beside;

    /// <param name="finer">Nodes of the level below, or the vertices.</param>
    /// <param name="reachMm">Radius of the kernel of this level, mm.</param>
    /// <param name="cancellation">Stops the work.</param>
    public SurfaceLevel(ReadOnlySpan<SurfaceNode> finer, double reachMm, CancellationToken cancellation)
    {
        ReachMm = (float)reachMm;
        CellIndex cells = new(reachMm / CellsInReach);
        int[] cellOf = new int[finer.Length];
        for (int i = 0; i < finer.Length; i++)
        {
            if (i % Often == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }

            cellOf[i] = cells.Add(finer[i].Position, SideOf(finer[i].Normal));
        }

        SurfaceNode[] merged = Merged(finer, cellOf, cells.Count);
        CellIndex buckets = new(reachMm);
        int[] bucketOf = Array.ConvertAll(merged, node => buckets.Add(node.Position, 0));
        int[] order = Sorted(bucketOf, buckets.Count, out _bucketFirst);
        (Nodes, BucketOf) = (new SurfaceNode[merged.Length], new int[merged.Length]);
        for (int i = 0; i < merged.Length; i++)
        {
            (Nodes[order[i]], BucketOf[order[i]]) = (merged[i], bucketOf[i]);
        }

        NodeOf = Array.ConvertAll(cellOf, cell => order[cell]);
        _beside = Beside(buckets);
    }

    /// <summary>Radius of the kernel, mm.</summary>
    public float ReachMm { get; }

    /// <summary>The nodes, by bucket.</summary>
    public SurfaceNode[] Nodes { get; }

    /// <summary>Bucket of each node.</summary>
    public int[] BucketOf { get; }

    /// <summary>Node in which each node of the level below lies.</summary>
    public int[] NodeOf { get; }

    /// <summary>Number of buckets.</summary>
    public int Buckets => _bucketFirst.Length - 1;

    /// <summary>First node of a bucket; its last stands before the first of the next.</summary>
    public int FirstOf(int bucket) => _bucketFirst[bucket];

    /// <summary>The bucket itself and those around it; -1 where there is none.</summary>
    public ReadOnlySpan<int> Around(int bucket) => _beside.AsSpan(27 * bucket, 27);

    private static SurfaceNode[] Merged(ReadOnlySpan<SurfaceNode> finer, int[] cellOf, int count)
    {
        SurfaceNode[] sums = new SurfaceNode[count];
        for (int i = 0; i < finer.Length; i++)
        {
            ref SurfaceNode sum = ref sums[cellOf[i]];
            float area = finer[i].AreaMm2;
            sum = new SurfaceNode(
                sum.Position + (area * finer[i].Position), sum.Normal + (area * finer[i].Normal), sum.AreaMm2 + area);
        }

        for (int i = 0; i < count; i++)
        {
            Vector3 normal = sums[i].Normal;
            sums[i] = new SurfaceNode(
                sums[i].Position / sums[i].AreaMm2,
                normal.LengthSquared() > 0 ? Vector3.Normalize(normal) : normal, sums[i].AreaMm2);
        }

        return sums;
    }

    // New place of each item, bucket after bucket.
    private static int[] Sorted(int[] bucketOf, int buckets, out int[] first)
    {
        first = new int[buckets + 1];
        foreach (int bucket in bucketOf)
        {
            first[bucket + 1]++;
        }

        for (int b = 0; b < buckets; b++)
        {
            first[b + 1] += first[b];
        }

        int[] next = (int[])first.Clone(), places = new int[bucketOf.Length];
        for (int i = 0; i < places.Length; i++)
        {
            places[i] = next[bucketOf[i]]++;
        }

        return places;
    }

    private static int SideOf(Vector3 normal)
    {
        float x = Math.Abs(normal.X), y = Math.Abs(normal.Y), z = Math.Abs(normal.Z);
        return x >= y && x >= z ? (normal.X >= 0 ? 0 : 1) : y >= z ? (normal.Y >= 0 ? 2 : 3) : normal.Z >= 0 ? 4 : 5;
    }

    private int[] Beside(CellIndex buckets)
    {
        int[] beside = new int[27 * Buckets];
        for (int b = 0; b < Buckets; b++)
        {
            Vector3 position = Nodes[_bucketFirst[b]].Position;
            for (int i = 0; i < 27; i++)
            {
                beside[(27 * b) + i] = buckets.Beside(position, (i % 3) - 1, (i / 3 % 3) - 1, (i / 9) - 1);
            }
        }

        return beside;
    }
}
