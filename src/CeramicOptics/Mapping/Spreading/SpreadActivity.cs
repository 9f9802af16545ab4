namespace CeramicOptics.Mapping.Spreading;

/// <summary>Which nodes of a level have stumps of more than one kind within reach.</summary>
internal sealed class SpreadActivity
{
    private readonly int[] _first;
    private readonly ushort[] _stumps;
    private readonly SurfaceLevel _level;

    /// <param name="level">The level.</param>
    /// <param name="stumpsOfNode">Stumps below each node, one bit each.</param>
    public SpreadActivity(SurfaceLevel level, ushort[] stumpsOfNode)
    {
        _level = level;
        ushort[] own = new ushort[level.Buckets];
        for (int i = 0; i < stumpsOfNode.Length; i++)
        {
            own[level.BucketOf[i]] |= stumpsOfNode[i];
        }

        (_first, _stumps) = (new int[level.Buckets], new ushort[level.Buckets]);
        for (int b = 0; b < own.Length; b++)
        {
            foreach (int beside in level.Around(b))
            {
                _stumps[b] |= beside < 0 ? (ushort)0 : own[beside];
            }

            bool isActive = (_stumps[b] & (_stumps[b] - 1)) != 0;
            _first[b] = isActive ? Count : -1;
            Count += isActive ? level.FirstOf(b + 1) - level.FirstOf(b) : 0;
        }
    }

    /// <summary>Number of active nodes.</summary>
    public int Count { get; }

    /// <summary>Place of a node among the active ones; -1 when it is none.</summary>
    public int At(int node)
    {
        int bucket = _level.BucketOf[node];
        return _first[bucket] < 0 ? -1 : _first[bucket] + node - _level.FirstOf(bucket);
    }

    /// <summary>True when a stump is within reach of a node.</summary>
    public bool Reaches(int node, int stump) => (_stumps[_level.BucketOf[node]] & (1 << stump)) != 0;
}
