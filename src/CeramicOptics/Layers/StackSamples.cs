namespace CeramicOptics.Layers;

/// <summary>Samples at nodes, kept so that a doubled degree evaluates only what is new.</summary>
internal sealed class StackSamples(LayerStack stack, IReadOnlyList<VariableThickness> varied, StackSampler sampler)
{
    private double[] _last = [];
    private Chebyshev[] _lastAxes = [];

    public double[] At(Chebyshev[] axes, CancellationToken cancellation)
    {
        int n = stack.Grid.Count, first = axes[0].Count, nodes = axes.Aggregate(1, (count, axis) => count * axis.Count);
        double[] values = new double[nodes * StackResponse.Functions * n];
        double[] layersMm = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
        for (int i = 0; i < n; i++)
        {
            for (int node = 0; node < nodes; node++)
            {
                cancellation.ThrowIfCancellationRequested();
                int at = (node * StackResponse.Functions * n) + i;
                if (Known(axes, node % first, node / first) is int known)
                {
                    for (int f = 0; f < StackResponse.Functions; f++)
                    {
                        values[at + (f * n)] = _last[(known * StackResponse.Functions * n) + i + (f * n)];
                    }

                    continue;
                }

                SetNode(varied, axes, node, layersMm);
                SubstrateResponse response = sampler.At(i, layersMm);
                (values[at], values[at + n], values[at + (2 * n)], values[at + (3 * n)]) = (
                    response.Own, response.Exchange, response.Return, response.Passing);
            }
        }

        (_last, _lastAxes) = (values, axes);
        return values;
    }

    /// <summary>Puts the thicknesses of one node into those of the stack.</summary>
    public static void SetNode(
        IReadOnlyList<VariableThickness> varied, Chebyshev[] axes, int node, Span<double> layersMm)
    {
        varied[0].Set(axes[0].NodeMm(node % axes[0].Count), layersMm);
        if (axes.Length > 1)
        {
            varied[1].Set(axes[1].NodeMm(node / axes[0].Count), layersMm);
        }
    }

    // Every other point of the doubled degree is a point of the one before.
    private int? Known(Chebyshev[] axes, int k, int l)
    {
        if (_lastAxes.Length == 0)
        {
            return null;
        }

        bool Halves(int axis, int at) => axes[axis].Degree == 0 || at % 2 == 0;
        int Half(int axis, int at) => axes[axis].Degree == 0 ? 0 : at / 2;
        return Halves(0, k) && (axes.Length == 1 || Halves(1, l))
            ? Half(0, k) + (axes.Length == 1 ? 0 : Half(1, l) * _lastAxes[0].Count)
            : null;
    }
}
