namespace CeramicOptics.Layers.Transport;

/// <summary>Reflection (and transmission) operators of a stack of layers, from the bottom up, at one wavelength. One instance serves one thread.</summary>
internal sealed class TransportSolver
{
    // A hair below 1, so that light caught for ever in a clear layer between two total reflections has a finite (and here zero) amount.
    private const double TotalReflection = 1 - 1e-14;

    private readonly DirectionGrid _grid;
    private readonly SlabOperator _slab;
    private readonly SquareMatrix _reflection, _transmission, _inside, _work, _other;
    private readonly Dictionary<(double Index, double Anisotropy), PhaseMatrix> _phases = [];
    private readonly double[] _fresnel, _through;
    private bool _isOpen;

    public TransportSolver(DirectionGrid grid)
    {
        _grid = grid;
        _slab = new SlabOperator(grid.Count);
        (_reflection, _transmission, _inside, _work, _other) = (New(), New(), New(), New(), New());
        (_fresnel, _through) = (new double[grid.Count], new double[grid.Count]);
        SquareMatrix New() => new(grid.Count);
    }

    /// <summary>Starts with nothing below: light that leaves downwards is counted as transmitted.</summary>
    public void SetOpen()
    {
        _isOpen = true;
        _reflection.Clear();
        _transmission.Clear();
        _transmission.ScaleAndAddIdentity(0);
    }

    /// <summary>Starts with a Lambertian body of the given internal reflectance, seen from inside its own medium.</summary>
    public void SetLambertian(double index, double reflectance)
    {
        double[] cosines = _grid.Cosines(index), weights = _grid.Weights(index);
        double sum = 0;
        for (int i = 0; i < cosines.Length; i++)
        {
            sum += cosines[i] * weights[i];
        }

        _isOpen = false;
        _reflection.Clear();
        for (int i = 0; i < cosines.Length; i++)
        {
            Span<double> row = _reflection.Row(i);
            for (int j = 0; j < cosines.Length; j++)
            {
                row[j] = cosines[j] > 0 ? reflectance * cosines[i] * weights[i] / sum : 0;
            }
        }
    }

    /// <summary>Puts a boundary on top: light now comes from a medium of index <paramref name="upper"/> onto the one of index <paramref name="lower"/>.</summary>
    public void AddBoundary(double upper, double lower)
    {
        if (upper == lower)
        {
            return;
        }

        // Fluxes go from node to node, so both sides share one reflectance; a node that exists on one side only is totally reflected there.
        double[] above = _grid.Cosines(upper), below = _grid.Cosines(lower);
        for (int i = 0; i < above.Length; i++)
        {
            _fresnel[i] = above[i] > 0 && below[i] > 0 ? Fresnel(upper, above[i], lower, below[i]) : TotalReflection;
            _through[i] = above[i] > 0 && below[i] > 0 ? 1 - _fresnel[i] : 0;
        }

        // What goes down below the boundary, (E - r R_b)^-1 t; then R = r + t R_b of it.
        _inside.CopyFrom(_reflection);
        _inside.ScaleRows(_fresnel);
        _inside.ScaleAndAddIdentity(-1);
        _inside.Invert();
        _inside.ScaleColumns(_through);
        Transmit();
        _other.Product(_reflection, _inside);
        _other.ScaleRows(_through);
        _reflection.CopyFrom(_other);
        for (int i = 0; i < above.Length; i++)
        {
            _reflection[i, i] += above[i] > 0 ? _fresnel[i] : 0;
        }
    }

    /// <summary>Puts a layer on top, in the medium that light comes from now.</summary>
    public void AddLayer(TransportLayer layer)
    {
        ComputeSlab(layer);

        // What goes down below the layer, (E - R1 R_g)^-1 T1; then R = R1 + T1 R_g of it.
        _work.Product(_slab.Reflection, _reflection);
        _work.ScaleAndAddIdentity(-1);
        _work.Invert();
        _inside.Product(_work, _slab.Transmission);
        Transmit();
        _other.Product(_reflection, _inside);
        _reflection.Product(_slab.Transmission, _other);
        _reflection.Add(_slab.Reflection, 1);
    }

    /// <summary>Shares of Lambertian light from the medium above that return and that pass.</summary>
    public (double Reflectance, double Transmittance) Diffuse(double index)
    {
        double[] cosines = _grid.Cosines(index), weights = _grid.Weights(index);
        double into = 0, back = 0, through = 0;
        for (int j = 0; j < cosines.Length; j++)
        {
            (double reflected, double transmitted) = ColumnSums(j);
            double flux = cosines[j] * weights[j];
            into += flux;
            back += flux * reflected;
            through += flux * transmitted;
        }

        return (back / into, through / into);
    }

    /// <summary>Shares of collimated light from an instrument direction that return and that pass.</summary>
    public (double Reflectance, double Transmittance) Collimated(double lightDegrees) => ColumnSums(DirectionGrid.Instrument(lightDegrees));

    /// <summary>Radiance factor in an instrument direction under Lambertian light.</summary>
    public double DiffuseRadianceFactor(double index, double viewDegrees)
    {
        double[] cosines = _grid.Cosines(index), weights = _grid.Weights(index);
        int view = DirectionGrid.Instrument(viewDegrees);
        ReadOnlySpan<double> row = _reflection.Row(view);
        double flux = 0, into = 0;
        for (int j = 0; j < cosines.Length; j++)
        {
            flux += row[j] * 2 * cosines[j] * weights[j];
            into += 2 * cosines[j] * weights[j];
        }

        return flux / (2 * cosines[view] * weights[view]) / into;
    }

    /// <summary>Radiance factor from one instrument direction into another.</summary>
    public double RadianceFactor(double index, double lightDegrees, double viewDegrees)
    {
        int view = DirectionGrid.Instrument(viewDegrees);
        return _reflection[view, DirectionGrid.Instrument(lightDegrees)] / (2 * _grid.Cosines(index)[view] * _grid.Weights(index)[view]);
    }

    /// <summary>Fresnel reflectance of a direction by its cosines on both sides.</summary>
    private static double Fresnel(double n1, double cosine1, double n2, double cosine2)
    {
        double perpendicular = ((n1 * cosine1) - (n2 * cosine2)) / ((n1 * cosine1) + (n2 * cosine2));
        double parallel = ((n2 * cosine1) - (n1 * cosine2)) / ((n2 * cosine1) + (n1 * cosine2));
        return ((perpendicular * perpendicular) + (parallel * parallel)) / 2;
    }

    private (double Reflected, double Transmitted) ColumnSums(int column)
    {
        double reflected = 0, transmitted = 0;
        for (int i = 0; i < _grid.Count; i++)
        {
            reflected += _reflection[i, column];
            transmitted += _transmission[i, column];
        }

        return (reflected, transmitted);
    }

    // Light that leaves below is what leaves the old stack of the light that goes down inside.
    private void Transmit()
    {
        if (_isOpen)
        {
            _work.Product(_transmission, _inside);
            _transmission.CopyFrom(_work);
        }
    }

    private void ComputeSlab(TransportLayer layer)
    {
        double[] cosines = _grid.Cosines(layer.RefractiveIndex), weights = _grid.Weights(layer.RefractiveIndex);
        if (!_phases.TryGetValue((layer.RefractiveIndex, layer.Anisotropy), out PhaseMatrix? phase))
        {
            phase = new PhaseMatrix(layer.Anisotropy, cosines, weights);
            _phases.Add((layer.RefractiveIndex, layer.Anisotropy), phase);
        }

        _slab.Compute(layer, phase, cosines, weights);
    }
}
