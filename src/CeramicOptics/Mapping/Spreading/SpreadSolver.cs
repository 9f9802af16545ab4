using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>Light on and from a stump that changes from place to place, at every scale of the surface.</summary>
/// <remarks>
/// With g the reflectance of the stump and F the light on it, relative to what falls on a black one, F = 1 + Return *
/// (g F). Split into the part that stays, r g F, and the kernels, of which the sum is v, F = (1 + v)/(1 - r g). v
/// begins as that of the stump's mean around, and is put in again. A stump s then shows by its share w = Up * (F / Fs)
/// where the stump is s, with Fs what F is over s alone, so that w is 1 far from other stumps. How far light goes
/// follows the thickness at each place; how much of it comes back, in F and Fs, is taken at the mean thickness, so that
/// over one stump F / Fs is 1 however the thickness changes.
/// </remarks>
internal sealed class SpreadSolver
{
    private const int Iterations = 2;

    private static readonly Vector4 Least = new(1e-6f);

    private readonly SurfaceLevel[] _levels;
    private readonly SpreadKernels _kernels;
    private readonly SpreadPatches _patches;
    private readonly SpreadActivity[] _active;
    private readonly Vector4[] _light;
    private readonly SpreadTerm[][][] _shares;
    private readonly CancellationToken _cancellation;
    private readonly Vector4 _local, _kept, _all;

    public SpreadSolver(
        SurfaceLevel[] levels, SpreadKernels kernels, SpreadPatches patches, IProgress<double>? progress,
        CancellationToken cancellation)
    {
        (_levels, _kernels, _patches, _cancellation) = (levels, kernels, patches, cancellation);
        (_local, _all) = (kernels.ReturnedLocal(patches.MeanStep), kernels.ReturnedAll(patches.MeanStep));
        _kept = _all - _local;
        _active = [.. Enumerable.Range(0, kernels.Kernels).Select(
            i => new SpreadActivity(levels[i], patches.StumpsOfNode(i)))];
        SpreadTerm[][] terms = [.. _active.Select(active => new SpreadTerm[active.Count])];
        Vector4[][] field = NewField();
        _light = field.Length > 0 ? new Vector4[field[0].Length] : [];
        for (int iteration = 0; iteration <= Iterations; iteration++)
        {
            Source(iteration == 0, field[0]);
            Spread([field], [terms], isUp: false);
            Receive(iteration == 0, field, terms);
            progress?.Report((iteration + 1) / (Iterations + 3.0));
        }

        Vector4[][][] sent = [.. Enumerable.Range(0, kernels.Stumps).Select(s => s == 0 ? field : NewField())];
        _shares = [.. sent.Select((_, s) => s == 0
            ? terms
            : [.. _active.Select(active => new SpreadTerm[active.Count])])];
        for (int s = 0; s < sent.Length; s++)
        {
            for (int node = 0; node < sent[s][0].Length; node++)
            {
                sent[s][0][node] = patches.ShareOf(node, s) * Ratio(node, s);
            }
        }

        Spread(sent, _shares, isUp: true);
        progress?.Report(1);
    }

    /// <summary>Share by which each stump shows at a vertex; false when its own does alone.</summary>
    public bool SharesAt(int vertex, Vector3 position, double thicknessMm, int stump, Span<Vector4> shares)
    {
        int level = 0, node = _levels[0].NodeOf[vertex], step = _kernels.StepOf(thicknessMm);
        Vector4 own = _kernels.UpLocal(step);
        int first = node, at;
        while ((at = _active[level].At(node)) < 0)
        {
            own += _kernels.Up(step, level);
            if (++level == _active.Length)
            {
                return false;
            }

            node = _levels[level].NodeOf[node];
        }

        // Kernels were weighted by the thicknesses of the nodes; their sum is to be that at the vertex.
        Vector4 wanted = Vector4.Zero, carried = Carried(isUp: true, level, node);
        for (int kernel = level; kernel < _active.Length; kernel++)
        {
            wanted += _kernels.Up(step, kernel);
        }

        Vector4 scale = wanted / Vector4.Max(carried, Least);
        own += wanted - (scale * carried);
        Vector3 away = position - _levels[level].Nodes[node].Position;
        for (int s = 0; s < shares.Length; s++)
        {
            shares[s] = scale * _shares[s][level][at].At(away);
        }

        shares[stump] += own * Ratio(first, stump);
        return !IsAlone(shares, stump);
    }

    // Rounding aside.
    private static bool IsAlone(ReadOnlySpan<Vector4> shares, int stump)
    {
        const float Rounding = 1e-5f;
        Vector4 rest = Vector4.Zero;
        for (int s = 0; s < shares.Length; s++)
        {
            rest = Vector4.Max(rest, Vector4.Abs(s == stump ? shares[s] - Vector4.One : shares[s]));
        }

        return rest.X <= Rounding && rest.Y <= Rounding && rest.Z <= Rounding && rest.W <= Rounding;
    }

    private Vector4[][] NewField() =>
        [.. Enumerable.Range(0, _kernels.Kernels).Select(i => new Vector4[_levels[i].Nodes.Length])];

    // What the nodes send out: the stump's reflectance alone at first, then times the light on it.
    private void Source(bool isFirst, Vector4[] field)
    {
        for (int node = 0; node < field.Length; node++)
        {
            Vector4 sum = Vector4.Zero;
            for (int s = 0; s < _kernels.Stumps; s++)
            {
                float share = _patches.ShareOf(node, s);
                if (share > 0)
                {
                    Vector4 g = _kernels.Reflectance(s);
                    sum += share * (isFirst ? g : g * Light(node, g));
                }
            }

            field[node] = sum;
        }
    }

    // F, from its part that comes through kernels.
    private Vector4 Light(int node, Vector4 g) =>
        (Vector4.One + _light[node]) / (Vector4.One - (_local * g));

    private Vector4 Ratio(int node, int stump)
    {
        Vector4 g = _kernels.Reflectance(stump);
        return Light(node, g) * (Vector4.One - (_all * g));
    }

    private void Receive(bool isFirst, Vector4[][] field, SpreadTerm[][] terms)
    {
        for (int node = 0; node < _light.Length; node++)
        {
            int step = _patches.StepOf(0, node), level = 0, above = node, at;
            Vector4 sum = Vector4.Zero, own = Vector4.Zero;
            while ((at = _active[level].At(above)) < 0)
            {
                sum += _kernels.Returned(step, level) * field[level][above];
                own += _kernels.Returned(step, level);
                if (++level == _active.Length)
                {
                    break;
                }

                above = _levels[level].NodeOf[above];
            }

            if (at >= 0)
            {
                sum += terms[level][at].At(_levels[0].Nodes[node].Position - _levels[level].Nodes[above].Position);
                own += Carried(isUp: false, level, above);
            }

            // The mean of what is sent out around; over a stump alone its reflectance g at first, then g F.
            Vector4 mean = sum / Vector4.Max(own, Least);
            _light[node] = _kept * (isFirst ? mean / (Vector4.One - (_all * mean)) : mean);
        }
    }

    // From the widest kernel down: at active nodes what this kernel and all wider ones carry.
    private void Spread(Vector4[][][] fields, SpreadTerm[][][] terms, bool isUp)
    {
        for (int level = 1; level < _active.Length; level++)
        {
            foreach (Vector4[][] field in fields)
            {
                Merge(field[level - 1], field[level], level);
            }
        }

        NodeNeighbours neighbours = new();
        for (int level = _active.Length - 1; level >= 0; level--)
        {
            SurfaceLevel surface = _levels[level];
            for (int node = 0; node < surface.Nodes.Length; node++)
            {
                int at = _active[level].At(node);
                if (at < 0)
                {
                    continue;
                }

                if (at % 1024 == 0)
                {
                    _cancellation.ThrowIfCancellationRequested();
                }

                neighbours.Find(surface, node);
                Vector4 weight = Weight(isUp, _patches.StepOf(level, node), level);
                for (int s = 0; s < fields.Length; s++)
                {
                    SpreadTerm own = fields.Length > 1 && !_active[level].Reaches(node, s)
                        ? default
                        : neighbours.Of(fields[s][level], node).Times(weight);
                    terms[s][level][at] = Wider(own, level, node, fields[s], terms[s], isUp);
                }
            }
        }
    }

    // Adds what the wider kernels carry; those that find but one stump within reach carry the field itself.
    private SpreadTerm Wider(
        SpreadTerm own, int level, int node, Vector4[][] field, SpreadTerm[][] terms, bool isUp)
    {
        Vector3 position = _levels[level].Nodes[node].Position;
        for (int above = level + 1; above < _active.Length; above++)
        {
            node = _levels[above].NodeOf[node];
            int at = _active[above].At(node);
            if (at >= 0)
            {
                return own.Plus(terms[above][at], position - _levels[above].Nodes[node].Position);
            }

            own = own with { Value = own.Value + (
                Weight(isUp, _patches.StepOf(above, node), above) * field[above][node]) };
        }

        return own;
    }

    // Sum of the weights that a node and those it lies in have given to their kernels.
    private Vector4 Carried(bool isUp, int level, int node)
    {
        Vector4 sum = Weight(isUp, _patches.StepOf(level, node), level);
        while (++level < _active.Length)
        {
            node = _levels[level].NodeOf[node];
            sum += Weight(isUp, _patches.StepOf(level, node), level);
        }

        return sum;
    }

    private Vector4 Weight(bool isUp, int step, int kernel) =>
        isUp ? _kernels.Up(step, kernel) : _kernels.Returned(step, kernel);

    // Area means over the smaller nodes.
    private void Merge(Vector4[] finer, Vector4[] field, int level)
    {
        int[] nodeOf = _levels[level].NodeOf;
        SurfaceNode[] small = _levels[level - 1].Nodes, nodes = _levels[level].Nodes;
        Array.Clear(field, 0, field.Length);
        for (int i = 0; i < finer.Length; i++)
        {
            field[nodeOf[i]] += small[i].AreaMm2 / nodes[nodeOf[i]].AreaMm2 * finer[i];
        }
    }
}
