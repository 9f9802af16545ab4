using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>A stack at one wavelength by radiative transfer at a lateral frequency, from the body up.</summary>
/// <remarks>
/// What lies below a level answers J d = G s + e q, and the body receives (e s + c q)/2, where -q is what the body
/// sends out in the shape of Lambertian light. A <see cref="LateralSlab"/> on top makes of it G' = (S - V K⁻¹ V)/2, e'
/// = V K⁻¹ e, c' = c - 2 e K⁻¹ e with K = S + 2 G. All matrices are symmetric by reciprocity.
/// </remarks>
internal sealed class LateralColumn
{
    // Light, detector, body.
    private const int ReadColumns = 3;

    private readonly LateralDirections _directions;
    private readonly LateralLayer[] _layers;
    private readonly double _film, _body;
    private readonly TransportBeam _beam;
    private readonly LateralSlab _slab;
    private readonly LateralMatrix _v, _k, _m, _g;
    private readonly double[] _e, _column;
    private double _c;

    /// <param name="directions">Directions of all media and of the beam.</param>
    /// <param name="layers">From the surface down.</param>
    /// <param name="filmIndex">Index between lowest layer and body.</param>
    /// <param name="bodyIndex">Index of the body.</param>
    /// <param name="beam">Light and detector.</param>
    public LateralColumn(
        LateralDirections directions, LateralLayer[] layers, double filmIndex, double bodyIndex, TransportBeam beam)
    {
        (_directions, _layers, _film, _body, _beam) = (directions, layers, filmIndex, bodyIndex, beam);
        int n = directions.Count;
        LateralMatrix New() => new(n + 1, n + 1);
        (_slab, _k, _m, _g) = (new LateralSlab(directions), New(), New(), New());
        _v = new LateralMatrix(n, ReadColumns);
        (_e, _column) = (new double[n], new double[n]);
    }

    /// <summary>The response with the given thicknesses, mm, from the surface down.</summary>
    public LateralResponse At(double frequencyPerMm, ReadOnlySpan<double> layersMm)
    {
        SetBody();
        Cross(_film, _body);
        Cross(_layers[_layers.Length - 1].RefractiveIndex, _film);
        for (int i = _layers.Length - 1; i >= 0; i--)
        {
            if (layersMm[i] > 0)
            {
                Pass(_layers[i], frequencyPerMm, layersMm[i]);
            }

            if (i > 0)
            {
                Cross(_layers[i - 1].RefractiveIndex, _layers[i].RefractiveIndex);
            }
        }

        return Read();
    }

    // From the layer's lower to its upper face.
    private void Pass(LateralLayer layer, double frequencyPerMm, double thicknessMm)
    {
        _slab.Solve(layer, frequencyPerMm, thicknessMm);
        int n = layer.Count;
        for (int i = 0; i < n; i++)
        {
            Span<double> k = _k.Row(i), s = _slab.Sum.Row(i), g = _g.Row(i);
            for (int j = i; j < n; j++)
            {
                k[j] = s[j] + (2 * g[j]);
            }

            _slab.Difference[i, n] = _e[i];
        }

        LateralMatrix.Reduce(_k, _slab.Difference, n, n + 1, _m);
        for (int i = 0; i < n; i++)
        {
            Span<double> s = _slab.Sum.Row(i), m = _m.Row(i), g = _g.Row(i);
            for (int j = i; j < n; j++)
            {
                g[j] = (s[j] - m[j]) / 2;
            }

            _e[i] = m[n];
        }

        _c -= 2 * _m[n, n];
        _g.Mirror(n);
    }

    private LateralResponse Read()
    {
        DirectionGrid grid = _directions.Grid;
        double upper = _beam.Index, lower = _layers[0].RefractiveIndex, norm = grid.Norm(upper), direct = 0;
        double[] above = grid.In(upper).Cosines, below = grid.In(lower).Cosines;
        int n = _layers[0].Count;
        _k.CopyFrom(_g, n);
        for (int i = 0; i < n; i++)
        {
            _v.Row(i).Clear();
            _v[i, 2] = _e[i];
        }

        for (int i = 0; i < above.Length; i++)
        {
            double shape = grid.Amplitudes[i] / norm;
            double light = grid.Share(_beam.LightDegrees, i, shape), view = grid.Share(_beam.ViewDegrees, i, shape);
            double reflectance = above == below ? 0
                : i < below.Length ? Boundary.Fresnel(upper, above[i], lower, below[i]) : 1;
            double conductance = (1 - reflectance) / (1 + reflectance);
            direct += light * view * (1 - (2 * conductance) - (_beam.IsSpecularTrapped ? reflectance : 0));
            if (i < below.Length)
            {
                int first = _directions.First(i);
                for (int m = 0; m < _directions.OrdersOf(i); m++)
                {
                    _k[first + m, first + m] += m % 2 == 0 ? conductance : -conductance;
                }

                (_v[first, 0], _v[first, 1]) = (conductance * light, conductance * view);
            }
        }

        LateralMatrix.Reduce(_k, _v, n, ReadColumns, _m);
        return new LateralResponse(
            direct + (2 * _m[0, 1]), _m[0, 2], _m[1, 2], Math.Min((_m[2, 2] - _c) / 2, TransportColumn.LargestReturn));
    }

    private void SetBody()
    {
        _g.Clear();
        Array.Clear(_e, 0, _e.Length);
        double norm = _directions.Grid.Norm(_body);
        int count = _directions.Grid.In(_body).Count;
        for (int i = 0; i < count; i++)
        {
            int first = _directions.First(i);
            for (int m = 0; m < _directions.OrdersOf(i); m++)
            {
                _g[first + m, first + m] = m % 2 == 0 ? 1 : -1;
            }

            _e[first] = 2 * _directions.Grid.Amplitudes[i] / norm;
        }

        _c = 2;
    }

    // Puts a boundary on top: a resistance 2 r / (1 - r) in each direction. One that exists on one side only is totally
    // reflected there.
    private void Cross(double upper, double lower)
    {
        double[] above = _directions.Grid.In(upper).Cosines, below = _directions.Grid.In(lower).Cosines;
        if (above == below)
        {
            return;
        }

        int order = _directions.First(below.Length);
        for (int i = below.Length - 1; i >= 0; i--)
        {
            double reflectance = i < above.Length ? Boundary.Fresnel(upper, above[i], lower, below[i]) : 1;
            for (int m = _directions.OrdersOf(i) - 1; m >= 0; m--)
            {
                int at = _directions.First(i) + m;
                double sign = m % 2 == 0 ? 1 : -1, own = _g[at, at];
                Subtract(at, order, i < above.Length
                    ? sign / (((1 - reflectance) / (2 * reflectance)) + (sign * own))
                    : 1 / (own + (sign * FluxNetwork.Leak)));
                if (i >= above.Length)
                {
                    _g.Row(at).Clear();
                    for (int j = 0; j < order; j++)
                    {
                        _g[j, at] = 0;
                    }

                    _e[at] = 0;
                }
            }
        }
    }

    // G - f a a' with a the column, and the same for the body.
    private void Subtract(int at, int order, double factor)
    {
        if (factor == 0)
        {
            return;
        }

        _g.Row(at).Slice(0, order).CopyTo(_column);
        double body = _e[at];
        for (int i = 0; i < order; i++)
        {
            double share = factor * _column[i];
            if (share != 0)
            {
                Span<double> row = _g.Row(i);
                for (int j = 0; j < order; j++)
                {
                    row[j] -= share * _column[j];
                }

                _e[i] -= share * body;
            }
        }

        _c -= factor * body * body;
    }
}
