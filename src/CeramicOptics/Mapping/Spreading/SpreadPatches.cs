namespace CeramicOptics.Mapping.Spreading;

/// <summary>Stumps and thickness of every node of a surface, from those of its vertices.</summary>
/// <remarks>Thicknesses are means by area over the vertices that have one.</remarks>
internal sealed class SpreadPatches
{
    private const int Mixed = 255;

    private readonly int _stumps;
    private readonly byte[] _stumpOf;
    private readonly Dictionary<int, float[]> _mixed = [];
    private readonly ushort[][] _steps, _kinds;

    public SpreadPatches(
        SurfaceLevel[] levels, ReadOnlySpan<SurfaceNode> vertices, SpreadKernels kernels,
        ReadOnlySpan<double> thicknessesMm, ReadOnlySpan<byte> stumps)
    {
        _stumps = kernels.Stumps;
        _stumpOf = StumpsOf(levels[0], vertices, stumps);
        (_steps, _kinds) = (new ushort[kernels.Kernels][], new ushort[kernels.Kernels][]);
        float[] sums = new float[levels[0].Nodes.Length], areas = new float[sums.Length];
        int[] nodeOf = levels[0].NodeOf;
        for (int i = 0; i < nodeOf.Length; i++)
        {
            double mm = thicknessesMm[i];
            if (!double.IsNaN(mm))
            {
                float area = vertices[i].AreaMm2;
                mm = Math.Min(kernels.Range.MaxMm, Math.Max(kernels.Range.MinMm, mm));
                sums[nodeOf[i]] += area * (float)mm;
                areas[nodeOf[i]] += area;
            }
        }

        MeanStep = kernels.StepOf(areas.Sum(area => (double)area) is double all && all > 0
            ? sums.Sum(sum => (double)sum) / all
            : double.NaN);
        _kinds[0] = [.. _stumpOf.Select((stump, node) => stump != Mixed
            ? (ushort)(1 << stump)
            : (ushort)Enumerable.Range(0, _stumps).Where(s => _mixed[node][s] > 0).Sum(s => 1 << s))];
        for (int level = 0; level < _steps.Length; level++)
        {
            if (level > 0)
            {
                (sums, areas) = (Merged(sums, levels[level]), Merged(areas, levels[level]));
                _kinds[level] = new ushort[levels[level].Nodes.Length];
                for (int i = 0; i < levels[level].NodeOf.Length; i++)
                {
                    _kinds[level][levels[level].NodeOf[i]] |= _kinds[level - 1][i];
                }
            }

            ushort[] steps = _steps[level] = new ushort[sums.Length];
            for (int i = 0; i < steps.Length; i++)
            {
                steps[i] = (ushort)kernels.StepOf(areas[i] > 0 ? sums[i] / areas[i] : double.NaN);
            }
        }
    }

    /// <summary>Step of the mean thickness of the whole surface.</summary>
    public int MeanStep { get; }

    /// <summary>Stumps below each node of a level, one bit each.</summary>
    public ushort[] StumpsOfNode(int level) => _kinds[level];

    /// <summary>Step of the thickness of a node.</summary>
    public int StepOf(int level, int node) => _steps[level][node];

    /// <summary>Share of the area of a node of the finest level that has a stump below.</summary>
    public float ShareOf(int node, int stump) =>
        _stumpOf[node] == Mixed ? _mixed[node][stump] : _stumpOf[node] == stump ? 1 : 0;

    private static float[] Merged(float[] finer, SurfaceLevel level)
    {
        float[] sums = new float[level.Nodes.Length];
        for (int i = 0; i < finer.Length; i++)
        {
            sums[level.NodeOf[i]] += finer[i];
        }

        return sums;
    }

    private byte[] StumpsOf(SurfaceLevel level, ReadOnlySpan<SurfaceNode> vertices, ReadOnlySpan<byte> stumps)
    {
        const byte None = 254;
        byte[] stumpOf = new byte[level.Nodes.Length];
        stumpOf.AsSpan().Fill(None);
        for (int i = 0; i < stumps.Length; i++)
        {
            ref byte known = ref stumpOf[level.NodeOf[i]];
            known = known == None || known == stumps[i] ? stumps[i] : (byte)Mixed;
        }

        for (int i = 0; i < stumps.Length; i++)
        {
            int node = level.NodeOf[i];
            if (stumpOf[node] == Mixed)
            {
                if (!_mixed.TryGetValue(node, out float[]? shares))
                {
                    _mixed[node] = shares = new float[_stumps];
                }

                shares[stumps[i]] += vertices[i].AreaMm2 / level.Nodes[node].AreaMm2;
            }
        }

        return stumpOf;
    }
}
