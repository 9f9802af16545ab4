namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Eigenvalues and eigenvectors of diag(d) - ω y y' with y_i² = w_i d_i and Σ w_i = 1: isotropic scattering of albedo
/// ω.
/// </summary>
/// <remarks>
/// The eigenvalues are the roots of (1 - ω) = ω λ Σ w_i / (d_i - λ), Chandrasekhar's characteristic equation with λ =
/// k², one below each d_i. Each is found as a distance from the nearer pole by rational interpolation (Bunch, Nielsen,
/// Sorensen 1978, Numer. Math. 31:31), so that all differences d_i - λ_j are known to rounding; vectors are made
/// orthogonal by taking y from them again (Gu, Eisenstat 1994, SIAM J. Matrix Anal. Appl. 15:1266).
/// </remarks>
internal sealed class SecularEquation
{
    private const int MaximumIterations = 60;

    private readonly double[] _poles, _weights, _strengths, _shifted;
    private readonly double[,] _gaps, _differences;
    private double _albedo, _loss;

    /// <param name="poles">d, rising, all different.</param>
    /// <param name="weights">w, positive, of sum 1.</param>
    public SecularEquation(double[] poles, double[] weights)
    {
        int n = poles.Length;
        (_poles, _weights, _strengths, _shifted) = (poles, weights, new double[n], new double[n]);
        (_gaps, _differences) = (new double[n, n], new double[n, n]);
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                _gaps[i, j] = i == j ? 1 : 1 / (poles[i] - poles[j]);
            }
        }
    }

    /// <summary>
    /// Solves for one albedo above 0; loss is 1 - albedo, which is given apart because it may be far smaller than 1.
    /// </summary>
    /// <param name="albedo">ω, above 0 to 1.</param>
    /// <param name="loss">1 - ω.</param>
    /// <param name="eigenvalues">Receives them, rising.</param>
    /// <param name="vectors">Receives the orthonormal eigenvectors, one a row.</param>
    public void Solve(double albedo, double loss, Span<double> eigenvalues, double[,] vectors)
    {
        (_albedo, _loss) = (albedo, loss);
        int n = _poles.Length;
        for (int i = 0; i < n; i++)
        {
            _strengths[i] = albedo * _weights[i] * _poles[i];
        }

        for (int j = 0; j < n; j++)
        {
            eigenvalues[j] = Root(j);
        }

        for (int i = 0; i < n; i++)
        {
            double square = _differences[i, i];
            for (int j = 0; j < n; j++)
            {
                square *= i == j ? 1 : _differences[i, j] * _gaps[i, j];
            }

            double y = Math.Sqrt(Math.Max(square, double.Epsilon));
            for (int j = 0; j < n; j++)
            {
                vectors[j, i] = y / _differences[i, j];
            }
        }

        for (int j = 0; j < n; j++)
        {
            double sum = 0;
            for (int i = 0; i < n; i++)
            {
                sum += vectors[j, i] * vectors[j, i];
            }

            double scale = 1 / Math.Sqrt(sum);
            for (int i = 0; i < n; i++)
            {
                vectors[j, i] *= scale;
            }
        }
    }

    // The root between the poles before j (0 for the first) and j, and with it column j of the differences.
    private double Root(int j)
    {
        double below = j == 0 ? 0 : _poles[j - 1], above = _poles[j], half = (above - below) / 2;
        Shift(below);
        Value middle = At(j, half, below);
        bool isUpper = middle.Balance > 0;
        double origin = isUpper ? above : below;
        Shift(origin);
        (double low, double high) = isUpper ? (-half, 0.0) : (0.0, half);
        double at = Start(j, isUpper ? -half : half, middle);
        for (int iteration = 0; iteration < MaximumIterations; iteration++)
        {
            at = at > low && at < high ? at : (low + high) / 2;
            Value value = At(j, at, origin);
            if (Math.Abs(value.Balance) <= 2e-16 * value.Size)
            {
                break;
            }

            (low, high) = value.Balance > 0 ? (at, high) : (low, at);
            double step = Step(j, at, value);
            double next = at + step;
            next = next > low && next < high ? next : Inside(low, high);
            if (Math.Abs(next - at) <= 2e-16 * Math.Abs(at))
            {
                break;
            }

            at = next;
        }

        for (int i = 0; i < _poles.Length; i++)
        {
            _differences[i, j] = _shifted[i] - at;
        }

        return origin + at;
    }

    // Poles as distances from the origin.
    private void Shift(double origin)
    {
        for (int i = 0; i < _poles.Length; i++)
        {
            _shifted[i] = _poles[i] - origin;
        }
    }

    // 1 - Σ z/(d - λ), which falls from plus to minus infinity between two poles; the first root may be tiny, so it
    // balances the loss.
    private Value At(int j, double at, double origin)
    {
        double left = 0, right = 0, leftSlope = 0, rightSlope = 0, sum = 0;
        for (int i = 0; i < j; i++)
        {
            double inverse = 1 / (_shifted[i] - at), term = _strengths[i] * inverse;
            (left, leftSlope) = (left + term, leftSlope + (term * inverse));
        }

        for (int i = j; i < _poles.Length; i++)
        {
            double inverse = 1 / (_shifted[i] - at), term = _strengths[i] * inverse;
            (right, rightSlope, sum) = (right + term, rightSlope + (term * inverse), sum + (_weights[i] * inverse));
        }

        if (j > 0)
        {
            return new Value(1 - left - right, leftSlope, rightSlope, 1 - left + right);
        }

        double scattered = _albedo * (origin + at) * sum;
        return new Value(_loss - scattered, 0, rightSlope, _loss + scattered);
    }

    // The two nearest poles as they are, all others as a constant.
    private double Start(int j, double at, Value value)
    {
        if (j == 0)
        {
            return at + Step(j, at, value);
        }

        double toLeft = _shifted[j - 1] - at, toRight = _shifted[j] - at;
        double constant = value.Balance + (_strengths[j - 1] / toLeft) + (_strengths[j] / toRight);
        return at + Crossing(constant, _strengths[j - 1], _strengths[j], toLeft, toRight);
    }

    // The sums on both sides as one pole each, with the value and slope they have here.
    private double Step(int j, double at, Value value)
    {
        double toRight = _shifted[j] - at, right = value.RightSlope * toRight;
        if (j == 0)
        {
            return value.Balance * toRight / (value.Balance + right);
        }

        double toLeft = _shifted[j - 1] - at, left = value.LeftSlope * toLeft;
        return Crossing(value.Balance + left + right, left * toLeft, right * toRight, toLeft, toRight);
    }

    // t with c = p / (a - t) + q / (b - t), a < t < b.
    private static double Crossing(double c, double p, double q, double a, double b)
    {
        double linear = (c * (a + b)) - p - q, constant = (c * a * b) - (p * b) - (q * a);
        double root = Math.Sqrt(Math.Max(0, (linear * linear) - (4 * c * constant)));
        double half = (linear + (linear < 0 ? -root : root)) / 2, first = constant / half;
        return first > a && first < b ? first : half / c;
    }

    // Halfway in order of magnitude where the bracket reaches down to the origin's pole.
    private static double Inside(double low, double high)
    {
        double far = Math.Max(Math.Abs(low), Math.Abs(high)), near = Math.Min(Math.Abs(low), Math.Abs(high));
        return near < far / 16 ? Math.Sign(low + high) * Math.Sqrt(Math.Max(near, far * 1e-8) * far) : (low + high) / 2;
    }

    private readonly record struct Value(double Balance, double LeftSlope, double RightSlope, double Size);
}
