using System.Numerics;
using System.Runtime.InteropServices;

namespace CeramicOptics.Layers.Transport;

/// <summary>A stack at one wavelength, from the body up, for one light and detector and for any thicknesses.</summary>
/// <remarks>
/// What lies below each layer is kept in that layer's modes, so a call costs only the layers from the lowest changed
/// one up: a layer of depth τ is, mode by mode, a resistance tanh(γ τ)/γ in series, a transformer 1/cosh(γ τ), and a
/// conductance γ tanh(γ τ) across. The Lambertian body is a port, which sends light in the shape of its emission and,
/// by reciprocity, counts what arrives by the same shape. Light and detector are ports on top.
/// </remarks>
internal sealed class TransportColumn
{
    /// <summary>Rows before the directions: light, detector, body.</summary>
    public const int Ports = 3;

    private const int Light = 0, Detector = 1, Body = 2;

    // A body that gets all its light back would never lose it.
    public const double LargestReturn = 1 - 1e-15;

    private readonly DirectionGrid _grid;
    private readonly double[] _indices;
    private readonly LayerModes[] _modes;

    // What is under each layer, in directions and in the layer's modes.
    private readonly FluxNetwork[] _under, _below;
    private readonly FluxNetwork _top, _topInModes, _work, _node;
    private readonly ModeMatrix _scratch;
    private readonly Vector<double>[] _scale;
    private readonly double[] _thicknesses, _series;
    private readonly double _direct, _passingScale;
    private SubstrateResponse _last;

    /// <param name="grid">Directions, of all media and of the beam.</param>
    /// <param name="modes">
    /// Layers from the top down, kept: set them before use and call <see cref="Reset"/> when they change.
    /// </param>
    /// <param name="indices">Their indices.</param>
    /// <param name="filmIndex">Index between lowest layer and body.</param>
    /// <param name="bodyIndex">Index of the body.</param>
    /// <param name="beam">Light and detector.</param>
    public TransportColumn(
        DirectionGrid grid, LayerModes[] modes, double[] indices, double filmIndex, double bodyIndex,
        TransportBeam beam)
    {
        (_grid, _modes, _indices) = (grid, modes, indices);
        int capacity = grid.Count + Ports;
        (_under, _below) = (Array.ConvertAll(modes, _ => New()), Array.ConvertAll(modes, _ => New()));
        (_top, _topInModes, _work, _node) = (New(), New(), New(), New());
        (_scratch, _scale) = (new ModeMatrix(capacity), new Vector<double>[FluxNetwork.Padded(capacity)]);
        (_thicknesses, _series) = (new double[modes.Length], new double[grid.Count]);
        FluxNetwork bottom = _under[modes.Length - 1];
        SetBody(bottom, bodyIndex);
        Cross(bottom, filmIndex, bodyIndex);
        Cross(bottom, indices[indices.Length - 1], filmIndex);
        _direct = SetTop(beam, indices[0]);
        _passingScale = grid.Norm(bodyIndex) / grid.Norm(beam.Index);
        Reset();
        FluxNetwork New() => new(capacity);
    }

    /// <summary>Forgets what was computed, because modes have changed.</summary>
    public void Reset() => _thicknesses.AsSpan().Fill(double.NaN);

    /// <summary>Another substance in one layer; what is under the layer is kept.</summary>
    public void Set(int layer, TransportLayer substance)
    {
        _modes[layer].Set(substance);
        if (double.IsNaN(_thicknesses[_modes.Length - 1]))
        {
            return;
        }

        _thicknesses[layer] = double.NaN;
        _below[layer].Transform(_modes[layer].Into, _under[layer], _scratch);
        if (layer == 0)
        {
            _topInModes.Transform(_modes[0].Into, _top, _scratch);
        }
    }

    /// <summary>The response with the given thicknesses, mm, from the top down.</summary>
    public SubstrateResponse At(ReadOnlySpan<double> layersMm)
    {
        int lowest = layersMm.Length - 1;
        if (double.IsNaN(_thicknesses[lowest]))
        {
            _below[lowest].Transform(_modes[lowest].Into, _under[lowest], _scratch);
            _topInModes.Transform(_modes[0].Into, _top, _scratch);
        }

        // An unknown thickness differs from every other.
        while (lowest >= 0 && _thicknesses[lowest] == layersMm[lowest])
        {
            lowest--;
        }

        if (lowest < 0)
        {
            return _last;
        }

        layersMm.CopyTo(_thicknesses);
        for (int layer = lowest; layer >= 0; layer--)
        {
            _work.CopyFrom(_below[layer]);
            Pass(layer, layersMm[layer]);
            if (layer > 0)
            {
                Leave(layer, _under[layer - 1]);
                _below[layer - 1].Transform(_modes[layer - 1].Into, _under[layer - 1], _scratch);
            }
        }

        return _last = Read();
    }

    /// <summary>Reading with one layer infinitely thick. It must absorb or scatter.</summary>
    public double InfiniteAt(int layer, ReadOnlySpan<double> layersMm)
    {
        if (double.IsNaN(_thicknesses[0]))
        {
            At(layersMm);
        }

        _work.Order = _modes[layer].Into.Order;
        _work.Clear();
        for (int i = 0; i < _modes[layer].Roots.Length; i++)
        {
            _work[Ports + i, Ports + i] = _modes[layer].Roots[i];
        }

        for (int above = layer; above > 0; above--)
        {
            Leave(above, _node);
            _work.Transform(_modes[above - 1].Into, _node, _scratch);
            Pass(above - 1, layersMm[above - 1]);
        }

        return Read().Own;
    }

    // From the layer's lower to its upper face, in its modes.
    private void Pass(int layer, double thicknessMm)
    {
        LayerModes modes = _modes[layer];
        double depth = thicknessMm * modes.ExtinctionPerMm;
        if (depth == 0)
        {
            return;
        }

        Span<double> scale = MemoryMarshal.Cast<Vector<double>, double>(_scale.AsSpan());
        for (int i = 0; i < modes.Roots.Length; i++)
        {
            (_series[i], scale[Ports + i]) = Hyperbolic(modes.Roots[i], depth);
            _work.Series(Ports + i, _series[i]);
        }

        scale.Slice(0, Ports).Fill(1);
        _work.Scale(Ports, _scale);
        for (int i = 0; i < modes.Roots.Length; i++)
        {
            _work[Ports + i, Ports + i] += modes.Roots[i] * modes.Roots[i] * _series[i];
        }
    }

    // tanh(γ τ)/γ and 1/cosh(γ τ).
    private static (double Series, double Transformer) Hyperbolic(double root, double depth)
    {
        double x = root * depth, decay = Math.Exp(-x), square = decay * decay;
        double transformer = 2 * decay / (1 + square);
        if (x > 0.02)
        {
            return ((1 - square) / ((1 + square) * root), transformer);
        }

        double x2 = x * x;
        return (depth * (1 - (x2 / 3 * (1 - (x2 * 2 / 5 * (1 - (x2 * 17 / 42)))))), transformer);
    }

    // From a layer's modes to directions, and through the boundary above it.
    private void Leave(int layer, FluxNetwork node)
    {
        node.Transform(_modes[layer].OutOf, _work, _scratch);
        Cross(node, _indices[layer - 1], _indices[layer]);
    }

    // Rounding may leave either sign where nothing but reflection at the surface comes back.
    private SubstrateResponse Read()
    {
        _work.Add(_topInModes);
        _work.CutTo(Ports);
        double toBody = -_work[Body, Light], toDetector = -_work[Body, Detector];
        return new SubstrateResponse(
            Math.Max(0, _direct - (2 * _work[Detector, Light])),
            toBody * toDetector,
            Math.Min(Math.Max(0, -_work[Body, Body] / 2), LargestReturn),
            toBody * _passingScale);
    }

    private void SetBody(FluxNetwork bottom, double index)
    {
        int count = _grid.In(index).Count;
        double norm = _grid.Norm(index);
        bottom.Order = Ports + count;
        bottom[Body, Body] = 2;
        for (int i = 0; i < count; i++)
        {
            bottom[Ports + i, Ports + i] = 1;
            bottom[Ports + i, Body] = 2 * _grid.Amplitudes[i] / norm;
        }
    }

    // Puts a boundary on top. A direction that exists on one side only is totally reflected there.
    private void Cross(FluxNetwork network, double upper, double lower)
    {
        double[] above = _grid.In(upper).Cosines, below = _grid.In(lower).Cosines;
        if (above == below)
        {
            return;
        }

        network.CutTo(Ports + above.Length);
        for (int i = 0; i < Math.Min(above.Length, below.Length); i++)
        {
            double reflectance = Boundary.Fresnel(upper, above[i], lower, below[i]);
            network.Series(Ports + i, 2 * reflectance / (1 - reflectance));
        }

        network.ExtendTo(Ports + above.Length);
    }

    // Light and detector above the surface; returns what the surface alone sends from one to the other.
    private double SetTop(TransportBeam beam, double lower)
    {
        double upper = beam.Index;
        double[] above = _grid.In(upper).Cosines, below = _grid.In(lower).Cosines;
        double norm = _grid.Norm(upper), direct = 0;
        _top.Order = Ports + below.Length;
        for (int i = 0; i < above.Length; i++)
        {
            double shape = _grid.Amplitudes[i] / norm;
            double light = _grid.Share(beam.LightDegrees, i, shape), view = _grid.Share(beam.ViewDegrees, i, shape);
            double reflectance = above == below ? 0
                : i < below.Length ? Boundary.Fresnel(upper, above[i], lower, below[i]) : 1;
            double conductance = (1 - reflectance) / (1 + reflectance);
            direct += light * view * (1 - (2 * conductance) - (beam.IsSpecularTrapped ? reflectance : 0));
            if (i < below.Length)
            {
                _top[Ports + i, Ports + i] = conductance;
                _top[Ports + i, Light] = conductance * light;
                _top[Ports + i, Detector] = conductance * view;
            }
        }

        return direct;
    }
}
