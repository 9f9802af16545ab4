namespace CeramicOptics.Layers.Transport;

/// <summary>Modes of a substance that scatters more forward than backward, by Jacobi's method.</summary>
internal sealed class AnisotropicModes
{
    private const int MaximumSweeps = 40;

    // An eigenvalue nearer than this share to that of an instrument's direction does not determine its component.
    private const double LeastSeparation = 1e-6;

    private readonly PhaseMatrix _phase;
    private readonly double[] _cosines, _weights;
    private readonly double[,] _p, _m, _lower, _s, _q;
    private readonly int[] _instruments;
    private readonly double[][] _instrumentRows;

    public AnisotropicModes(MediumDirections medium, PhaseMatrix phase)
    {
        int n = medium.Count;
        (_phase, _cosines, _weights) = (phase, medium.Cosines, medium.Weights);
        (_p, _m, _lower, _s, _q) = (
            new double[n, n], new double[n, n], new double[n, n], new double[n, n], new double[n, n]);
        _instruments = [.. Enumerable.Range(0, n).Where(i => !DirectionGrid.Integrates(_weights[i]))];
        _instrumentRows = Array.ConvertAll(_instruments, _ => new double[n]);
    }

    public void Solve(double albedo, double[] eigenvalues, ModeMatrix into, ModeMatrix outOf)
    {
        int n = _cosines.Length;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double factor = albedo / 2 * Math.Sqrt(_weights[i] * _weights[j] / (_cosines[i] * _cosines[j]));
                double own = i == j ? 1 / _cosines[i] : 0;
                _p[i, j] = own - (factor * (_phase.Forward[i, j] - _phase.Backward[i, j]));
                _m[i, j] = own - (factor * (_phase.Forward[i, j] + _phase.Backward[i, j]));
            }
        }

        Factor();
        FormSymmetric();
        KeepInstruments();
        Diagonalize();
        SharpenInstruments();
        int slowest = 0;
        for (int mode = 0; mode < n; mode++)
        {
            eigenvalues[mode] = _s[mode, mode];
            slowest = eigenvalues[mode] < eigenvalues[slowest] ? mode : slowest;
        }

        // Without absorption one mode does not fall at all; rounding would show in very thick layers.
        eigenvalues[slowest] = albedo == 1 ? 0 : eigenvalues[slowest];

        // Into = (L Q)', OutOf = (L')^-1 Q.
        for (int mode = 0; mode < n; mode++)
        {
            Span<double> row = into.Row(TransportColumn.Ports + mode).Slice(TransportColumn.Ports);
            for (int i = 0; i < n; i++)
            {
                double sum = 0;
                for (int k = 0; k <= i; k++)
                {
                    sum += _lower[i, k] * _q[mode, k];
                }

                row[i] = sum;
            }

            for (int i = n - 1; i >= 0; i--)
            {
                double sum = _q[mode, i];
                for (int k = i + 1; k < n; k++)
                {
                    sum -= _lower[k, i] * outOf.Row(TransportColumn.Ports + k)[TransportColumn.Ports + mode];
                }

                outOf.Row(TransportColumn.Ports + i)[TransportColumn.Ports + mode] = sum / _lower[i, i];
            }
        }
    }

    // P = L L'.
    private void Factor()
    {
        int n = _cosines.Length;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = _p[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= _lower[i, k] * _lower[j, k];
                }

                _lower[i, j] = i == j ? Math.Sqrt(sum) : sum / _lower[j, j];
            }
        }
    }

    // S = L' M L.
    private void FormSymmetric()
    {
        int n = _cosines.Length;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int k = j; k < n; k++)
                {
                    sum += _m[i, k] * _lower[k, j];
                }

                _p[i, j] = sum;
            }
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = 0;
                for (int k = i; k < n; k++)
                {
                    sum += _lower[k, i] * _p[k, j];
                }

                (_s[i, j], _s[j, i]) = (sum, sum);
            }
        }
    }

    // Cyclic Jacobi rotations of S; rows of q become its eigenvectors (Golub, Van Loan, Matrix Computations, 8.5).
    private void Diagonalize()
    {
        int n = _cosines.Length;
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                _q[i, j] = i == j ? 1 : 0;
            }
        }

        bool isDone = false;
        for (int sweep = 0; sweep < MaximumSweeps && !isDone; sweep++)
        {
            isDone = true;
            for (int i = 0; i < n - 1; i++)
            {
                for (int j = i + 1; j < n; j++)
                {
                    if (_s[i, j] * _s[i, j] > 1e-32 * Math.Abs(_s[i, i] * _s[j, j]))
                    {
                        isDone = false;
                        Rotate(i, j);
                    }
                }
            }
        }
    }

    private void KeepInstruments()
    {
        for (int k = 0; k < _instruments.Length; k++)
        {
            for (int j = 0; j < _cosines.Length; j++)
            {
                _instrumentRows[k][j] = _s[_instruments[k], j];
            }
        }
    }

    // Components along instruments are as small as the root of their weight; Jacobi rounds them like large ones, and a
    // reading divides by that root again. Row i of S q = λ q gives them to full precision, and orthogonality of columns
    // gives those of the mode that is nearly the instrument's direction alone.
    private void SharpenInstruments()
    {
        int n = _cosines.Length;
        for (int k = 0; k < _instruments.Length; k++)
        {
            (int i, double[] row) = (_instruments[k], _instrumentRows[k]);
            int own = 0;
            for (int mode = 1; mode < n; mode++)
            {
                own = Math.Abs(_q[mode, i]) > Math.Abs(_q[own, i]) ? mode : own;
            }

            for (int mode = 0; mode < n; mode++)
            {
                double distance = _s[mode, mode] - row[i];
                if (mode != own && Math.Abs(distance) > LeastSeparation * row[i])
                {
                    double sum = 0;
                    for (int j = 0; j < n; j++)
                    {
                        sum += j == i ? 0 : row[j] * _q[mode, j];
                    }

                    _q[mode, i] = sum / distance;
                }
            }

            for (int j = 0; j < n; j++)
            {
                double sum = 0;
                for (int mode = 0; mode < n; mode++)
                {
                    sum += mode == own ? 0 : _q[mode, i] * _q[mode, j];
                }

                _q[own, j] = j == i ? _q[own, j] : -sum / _q[own, i];
            }
        }
    }

    private void Rotate(int i, int j)
    {
        double ratio = (_s[j, j] - _s[i, i]) / (2 * _s[i, j]);
        double tangent = (ratio < 0 ? -1 : 1) / (Math.Abs(ratio) + Math.Sqrt(1 + (ratio * ratio)));
        double cosine = 1 / Math.Sqrt(1 + (tangent * tangent)), sine = tangent * cosine, shift = tangent * _s[i, j];
        for (int k = 0; k < _cosines.Length; k++)
        {
            if (k != i && k != j)
            {
                (double a, double b) = (_s[k, i], _s[k, j]);
                (_s[k, i], _s[k, j]) = ((cosine * a) - (sine * b), (sine * a) + (cosine * b));
                (_s[i, k], _s[j, k]) = (_s[k, i], _s[k, j]);
            }

            (double x, double y) = (_q[i, k], _q[j, k]);
            (_q[i, k], _q[j, k]) = ((cosine * x) - (sine * y), (sine * x) + (cosine * y));
        }

        (_s[i, i], _s[j, j], _s[i, j], _s[j, i]) = (_s[i, i] - shift, _s[j, j] + shift, 0, 0);
    }
}
