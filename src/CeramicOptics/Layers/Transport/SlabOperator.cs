namespace CeramicOptics.Layers.Transport;

/// <summary>Reflection and transmission operators of one homogeneous layer, acting on fluxes in the directions of its medium.</summary>
/// <remarks>
/// With fluxes F± down and up, s = F+ + F- and d = F+ - F-, transfer reads s' = -P d, d' = -M s, where P = μt (1/μ - ω/2 w (h+ - h-)/μ) and
/// M = μt (1/μ - ω/2 w (h+ + h-)/μ). Light that is equal from both sides gives d = X s at the top with X = M tanh(y)/y h/2, y² = P M h²/4,
/// light that is opposite gives s = Y d with Y = tanh(y)/y P h/2. Then R + T = 2 (E + X)^-1 - E and T - R = 2 (E + Y)^-1 - E. X and Y of a
/// thin layer come from tanh(y)/y = (15 + y²)/(15 + 6 y²), whose error is of order y^6, and are doubled by the addition theorem of tanh: X becomes
/// 2 (E + X Y)^-1 X, and Y becomes 2 Y (E + X Y)^-1. This is doubling (van de Hulst 1980) with a start of high order; it is regular for layers
/// without absorption.
/// </remarks>
internal sealed class SlabOperator
{
    // Optical thickness of the start layer. Error of tanh(y)/y there is below 1e-9 for cosines above 0.1 and falls on ever less flux below.
    private const double StartThickness = 1.0 / 32;

    private readonly int _size;
    private readonly SquareMatrix _p, _m, _x, _y, _work, _other;

    public SlabOperator(int size)
    {
        _size = size;
        (_p, _m, _x, _y, _work, _other) = (New(), New(), New(), New(), New(), New());
        (Reflection, Transmission) = (New(), New());
        SquareMatrix New() => new(size);
    }

    public SquareMatrix Reflection { get; }

    public SquareMatrix Transmission { get; }

    public void Compute(TransportLayer layer, PhaseMatrix phase, double[] cosines, double[] weights)
    {
        // Delta-M: what is scattered into the forward peak is not scattered at all.
        double scattering = layer.ScatteringPerMm * (1 - phase.ForwardPeak);
        double thickness = layer.ThicknessMm * (layer.AbsorptionPerMm + scattering);
        double albedo = thickness == 0 ? 0 : scattering / (layer.AbsorptionPerMm + scattering);
        FillGenerators(phase, albedo, cosines, weights);
        int doublings = thickness > StartThickness ? (int)Math.Ceiling(Math.Log(thickness / StartThickness) / Math.Log(2)) : 0;
        Start(thickness / Math.Pow(2, doublings));
        for (int i = 0; i < doublings; i++)
        {
            Double();
        }

        // R = (E + X)^-1 - (E + Y)^-1, T = (E + X)^-1 + (E + Y)^-1 - E.
        _x.ScaleAndAddIdentity(1);
        _y.ScaleAndAddIdentity(1);
        _x.Invert();
        _y.Invert();
        Reflection.CopyFrom(_x);
        Reflection.Add(_y, -1);
        Transmission.CopyFrom(_x);
        Transmission.Add(_y, 1);
        for (int i = 0; i < _size; i++)
        {
            Transmission[i, i] -= 1;
        }
    }

    private void FillGenerators(PhaseMatrix phase, double albedo, double[] cosines, double[] weights)
    {
        _p.Clear();
        _m.Clear();
        for (int i = 0; i < _size; i++)
        {
            Span<double> p = _p.Row(i), m = _m.Row(i);
            for (int j = 0; j < _size; j++)
            {
                if (cosines[i] > 0 && cosines[j] > 0)
                {
                    double factor = albedo / 2 * weights[i] / cosines[j], own = i == j ? 1 / cosines[j] : 0;
                    p[j] = own - (factor * (phase.Forward[i, j] - phase.Backward[i, j]));
                    m[j] = own - (factor * (phase.Forward[i, j] + phase.Backward[i, j]));
                }
            }
        }
    }

    private void Start(double thickness)
    {
        double half = thickness / 2;
        _work.Product(_p, _m);
        _other.CopyFrom(_work);
        _work.ScaleAndAddIdentity(6 * half * half / 15);
        _work.Invert();
        _other.ScaleAndAddIdentity(half * half / 15);
        Reflection.Product(_work, _other);
        _x.Product(_m, Reflection);
        _x.Scale(half);
        _y.Product(Reflection, _p);
        _y.Scale(half);
    }

    private void Double()
    {
        _work.Product(_x, _y);
        _work.ScaleAndAddIdentity(1);
        _work.Invert();
        _work.Scale(2);
        _other.Product(_work, _x);
        _x.CopyFrom(_other);
        _other.Product(_y, _work);
        _y.CopyFrom(_other);
    }
}
