namespace CeramicOptics.Layers.Lateral;

/// <summary>One layer as a symmetric lattice at a lateral frequency, by doubling a thin one.</summary>
/// <remarks>
/// From depth z to z + 2 h, J d1 - J d2 = Y (s1 + s2) and J (d1 + d2) = X (s1 - s2), with Y = J A h tanh(x)/x, X = (B J
/// h)⁻¹ x coth(x), x² = h² B A. Kept are S = X + Y and V = X - Y; a layer twice as thick has S - M/2 and M/2, M = V S⁻¹
/// V.
/// </remarks>
internal sealed class LateralSlab
{
    // Largest x of the layer from which doubling starts; tanh and coth are then right to 0.02 times its fourth power.
    private const double StartDepth = 0.4;

    private readonly LateralDirections _directions;
    private readonly LateralMatrix _k, _a, _m;

    public LateralSlab(LateralDirections directions)
    {
        _directions = directions;
        int n = directions.Count;
        LateralMatrix New() => new(n, n);
        (_k, _a, _m, Sum) = (New(), New(), New(), New());

        // One column more, for the body's light.
        Difference = new LateralMatrix(n, n + 1);
    }

    /// <summary>S, upper triangle.</summary>
    public LateralMatrix Sum { get; }

    /// <summary>V, all entries.</summary>
    public LateralMatrix Difference { get; }

    /// <summary>Sets S and V for a layer of thickness above 0.</summary>
    public void Solve(LateralLayer layer, double frequencyPerMm, double thicknessMm)
    {
        if (double.IsInfinity(frequencyPerMm))
        {
            SwallowAll(layer, thicknessMm);
            return;
        }

        double h = thicknessMm / 2, depth = h * layer.LargestRatePerMm(frequencyPerMm);
        int doublings = Math.Max(0, (int)Math.Ceiling(Math.Log(depth / StartDepth) / Math.Log(2)));
        Start(layer, frequencyPerMm, thicknessMm, h / (1L << doublings));
        for (int step = 0; step < doublings; step++)
        {
            Double(layer.Count);
        }
    }

    // X = (B J h)⁻¹ + h J A / 3, Y = ((J A h)⁻¹ + h B J / 3)⁻¹ = h J A - h J A (3 (B J h)⁻¹ + h J A)⁻¹ h J A.
    private void Start(LateralLayer layer, double frequencyPerMm, double thicknessMm, double h)
    {
        int n = layer.Count;
        layer.Fill(frequencyPerMm, thicknessMm, _a, _k);
        for (int i = 0; i < n; i++)
        {
            Difference.Row(i).Clear();
            Difference[i, i] = 1;
        }

        LateralMatrix.Reduce(_k, Difference, n, n, Sum);
        for (int i = 0; i < n; i++)
        {
            Span<double> s = Sum.Row(i), k = _k.Row(i), v = Difference.Row(i), a = _a.Row(i);
            for (int j = 0; j < n; j++)
            {
                v[j] = h * a[j];
            }

            for (int j = i; j < n; j++)
            {
                k[j] = (3 * s[j] / h) + (h * a[j]);
            }
        }

        LateralMatrix.Reduce(_k, Difference, n, n, _m);
        for (int i = 0; i < n; i++)
        {
            Span<double> s = Sum.Row(i), v = Difference.Row(i), a = _a.Row(i), m = _m.Row(i);
            for (int j = i; j < n; j++)
            {
                double x = (s[j] / h) + (h * a[j] / 3), y = (h * a[j]) - m[j];
                (s[j], v[j]) = (x + y, x - y);
            }
        }

        Difference.Mirror(n);
    }

    private void Double(int n)
    {
        _k.CopyFrom(Sum, n);
        LateralMatrix.Reduce(_k, Difference, n, n, _m);
        for (int i = 0; i < n; i++)
        {
            Span<double> s = Sum.Row(i), v = Difference.Row(i), m = _m.Row(i);
            for (int j = i; j < n; j++)
            {
                v[j] = m[j] / 2;
                s[j] -= v[j];
            }
        }

        Difference.Mirror(n);
    }

    // Light that varies infinitely fast is averaged out on any way sideways: X = Y = J. What goes straight only fades.
    private void SwallowAll(LateralLayer layer, double thicknessMm)
    {
        int direction = 0;
        for (int i = 0; i < layer.Count; i++)
        {
            direction += i == _directions.First(direction + 1) ? 1 : 0;
            Sum.Row(i).Clear();
            Difference.Row(i).Clear();
            Sum[i, i] = (i - _directions.First(direction)) % 2 == 0 ? 2 : -2;
            if (_directions.IsNormal(direction))
            {
                double tanh = Math.Tanh(layer.Depth(direction, thicknessMm) / 2);
                (Sum[i, i], Difference[i, i]) = ((1 / tanh) + tanh, (1 / tanh) - tanh);
            }
        }
    }
}
