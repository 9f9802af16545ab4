using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>
/// The difference of one zone as a function of independent standard normal inputs. The only engine of uncertainties;
/// not for use by two threads at once.
/// </summary>
/// <remarks>
/// Thickness and scale of a monolithic wall go through its whole curve; the stump enters to second order; layers beside
/// the wall, refractive indices and reading noise enter linearly in tristimulus values, with their covariance between
/// lights and with a reference that moves; target and model add to L*a*b*, equally under all lights.
/// </remarks>
internal sealed class UncertaintyModel
{
    private readonly ZoneComparison _zone;
    private readonly InputUncertainty _inputs;
    private readonly bool _isMonolithic;
    private readonly double _scale;
    private readonly int _width;
    private readonly WallCurves? _stumpUp, _stumpDown;
    private readonly List<(Input Input, WallNeighbour Neighbour, WallCurves Curves)> _moves = [];
    private readonly List<(Input Input, ReadingNoise Noise)> _noise = [];

    // Everything linear at the thickness prepared: inputs, and their moves of XYZ of colours and references, one row
    // each.
    private readonly List<Input> _linear = [];
    private double[] _linearColors = [], _linearReferences = [];
    private readonly double[] _stumpOne, _stumpTwo, _nominal, _nominalReference;
    private double _preparedMm = double.NaN;
    private OwnError _own;

    public UncertaintyModel(ZoneComparison zone)
    {
        _zone = zone;
        Restoration restoration = zone.Wall.Restoration;
        _inputs = restoration.Uncertainty;
        _isMonolithic = restoration.Veneer is null;
        _scale = _isMonolithic ? restoration.Core.Material.Uncertainty?.RelativeScale ?? 0 : 0;
        _width = 3 * zone.Lights;
        (_stumpOne, _stumpTwo, _nominal, _nominalReference) = (
            new double[_width], new double[_width], new double[_width], new double[_width]);
        IReadOnlyList<WallNeighbour> neighbours = zone.Neighbours, references = zone.ReferenceNeighbours;
        if (_inputs.StumpReflectance > 0)
        {
            _stumpUp = WallCurves.OfStump(_zone, _inputs.StumpReflectance);
            _stumpDown = WallCurves.OfStump(_zone, -_inputs.StumpReflectance);
        }

        for (int i = 0; i < neighbours.Count; i++)
        {
            WallNeighbour one = neighbours[i];
            switch (one.Quantity)
            {
                case MovedQuantity.Thickness:
                    WallCurves curves = WallCurves.Of(_zone, one, references[i]);
                    _moves.Add(
                        (new Input(UncertainInput.Thickness, one.Role, one.Material, _inputs.ThicknessMm(one.Role)),
                        one, curves));
                    _moves.Add(
                        (new Input(UncertainInput.CoefficientScale, one.Role, one.Material,
                        one.Material.Uncertainty?.RelativeScale ?? 0), one, curves));
                    break;
                case MovedQuantity.RefractiveIndex:
                    _moves.Add(
                        (new Input(UncertainInput.RefractiveIndex, one.Role, one.Material, _inputs.RefractiveIndex),
                        one, WallCurves.Of(_zone, one, references[i])));
                    break;
                case MovedQuantity.Absorption:
                    ReadingNoise noise = new(
                        one.Axis, one.Material.Uncertainty!, WallCurves.CoefficientSlopes(_zone, i), zone.Tables);
                    _noise.Add((new Input(UncertainInput.CoefficientNoise, one.Role, one.Material, 1), noise));
                    break;
            }
        }

        foreach ((Input input, _, _) in _moves.Where(move => move.Input.Size > 0))
        {
            _linear.Add(input);
        }

        _linear.AddRange(_noise.SelectMany(noise => Enumerable.Repeat(noise.Input, noise.Noise.Directions)));
    }

    /// <summary>
    /// Number of inputs: thickness and scale of a monolithic wall, stump, three of the target, three of the model, then
    /// the linear ones.
    /// </summary>
    public int Dimensions => FixedInputs + _linear.Count;

    private const int Batch = 16;

    private const int FixedInputs = 9, Stump = 2, TargetFrom = 3, ModelFrom = 6;

    /// <summary>Input of a dimension.</summary>
    public (UncertainInput Input, LayerRole? Role, string? Material) InputOf(int dimension)
    {
        Material core = _zone.Wall.Restoration.Core.Material;
        return dimension switch
        {
            0 => (UncertainInput.Thickness, LayerRole.Core, core.Name),
            1 => (UncertainInput.CoefficientScale, LayerRole.Core, core.Name),
            Stump => (UncertainInput.Stump, null, null),
            < ModelFrom => (UncertainInput.Target, null, null),
            < FixedInputs => (UncertainInput.Model, null, null),
            _ => (_linear[dimension - FixedInputs].Kind, _linear[dimension - FixedInputs].Role,
            _linear[dimension - FixedInputs].Material.Name),
        };
    }

    /// <summary>Makes the linear inputs ready for one nominal thickness of the wall.</summary>
    public void Prepare(double wallMm)
    {
        if (wallMm == _preparedMm)
        {
            return;
        }

        _preparedMm = wallMm;
        Restoration restoration = _zone.Wall.Restoration;
        _own = _zone.Zone.Reference == MaskingReference.SelfBacked
            ? restoration.OwnErrorToInfinite(wallMm)
            : restoration.OwnErrorAt(wallMm);
        (_linearColors, _linearReferences) = (new double[_linear.Count * _width], new double[_linear.Count * _width]);
        int row = 0;
        foreach ((Input input, WallNeighbour neighbour, WallCurves curves) in _moves.Where(move => move.Input.Size > 0))
        {
            double size = input.Kind == UncertainInput.CoefficientScale
                ? input.Size * ThicknessOf(neighbour.Role, wallMm)
                : input.Size;
            curves.Evaluate(neighbour.Axis.At(wallMm), Row(_linearColors, row), Row(_linearReferences, row));
            SpanMath.Scale(Row(_linearColors, row), size);
            SpanMath.Scale(Row(_linearReferences, row), size);
            row++;
        }

        foreach ((Input _, ReadingNoise noise) in _noise)
        {
            int size = noise.Directions * _width;
            noise.SetDirections(
                wallMm, _linearColors.AsSpan(row * _width, size), _linearReferences.AsSpan(row * _width, size));
            row += noise.Directions;
        }

        _zone.Tristimulus(wallMm, _nominal, _nominalReference);
        Span<double> up = stackalloc double[_width], down = stackalloc double[_width];
        if (_stumpUp is not null)
        {
            double x = _zone.Axis.At(wallMm);
            _stumpUp.Colors.Evaluate(x, up);
            _stumpDown!.Colors.Evaluate(x, down);
            for (int f = 0; f < _width; f++)
            {
                (_stumpOne[f], _stumpTwo[f]) = ((up[f] - down[f]) / 2, ((up[f] + down[f]) / 2) - _nominal[f]);
            }
        }
    }

    /// <summary>
    /// Largest difference over lights at the inputs, about the thickness prepared; all 0 is the restoration as given.
    /// </summary>
    public double Difference(ReadOnlySpan<double> z)
    {
        Span<Lab> sample = stackalloc Lab[_zone.Lights], other = stackalloc Lab[_zone.Lights];
        Colors(z, sample, other);
        return ZoneComparison.Largest(_zone.Criterion, other, sample, out _);
    }

    /// <summary>The same at many points, one after another in memory.</summary>
    public void Differences(ReadOnlySpan<double> points, Span<double> destination)
    {
        int lights = _zone.Lights, dimensions = Dimensions;
        Span<Lab> samples = stackalloc Lab[lights * Batch], others = stackalloc Lab[lights * Batch],
            sample = stackalloc Lab[lights], other = stackalloc Lab[lights];
        for (int from = 0; from < destination.Length; from += Batch)
        {
            int count = Math.Min(Batch, destination.Length - from);
            for (int k = 0; k < count; k++)
            {
                Colors(points.Slice((from + k) * dimensions, dimensions), sample, other);
                for (int c = 0; c < lights; c++)
                {
                    (samples[(c * count) + k], others[(c * count) + k]) = (sample[c], other[c]);
                }
            }

            ZoneComparison.Largest(
                _zone.Criterion, others.Slice(0, lights * count), samples.Slice(0, lights * count),
                destination.Slice(from, count));
        }
    }

    // Colours and references by light.
    private void Colors(ReadOnlySpan<double> z, Span<Lab> samples, Span<Lab> others)
    {
        Span<double> colors = stackalloc double[_width], references = stackalloc double[_width];
        double wallMm = _isMonolithic
            ? Math.Max(0, _preparedMm + (_inputs.CoreMm * z[0])) * Math.Max(0, 1 + (_scale * z[1]))
            : _preparedMm;
        if (wallMm == _preparedMm)
        {
            _nominal.AsSpan().CopyTo(colors);
            _nominalReference.AsSpan().CopyTo(references);
        }
        else
        {
            _zone.Tristimulus(
                Math.Min(Math.Max(wallMm, _zone.Axis.Range.MinMm), _zone.Axis.Range.MaxMm), colors, references);
        }

        SpanMath.AddScaled(colors, _stumpOne, z[Stump]);
        SpanMath.AddScaled(colors, _stumpTwo, z[Stump] * z[Stump]);
        bool moves = _zone.Targets is null;
        for (int i = 0; i < _linear.Count; i++)
        {
            SpanMath.AddScaled(colors, Row(_linearColors, i), z[FixedInputs + i]);
            if (moves)
            {
                SpanMath.AddScaled(references, Row(_linearReferences, i), z[FixedInputs + i]);
            }
        }

        for (int c = 0; c < samples.Length; c++)
        {
            Lab sample = _zone.ToLab(colors, c);
            others[c] = moves
                ? _zone.ToLab(references, c)
                : Moved(_zone.Targets![c], z.Slice(TargetFrom, 3), _inputs.TargetColor);

            // Wall and masking reference have one theory and one set of constants, and the same colour once the stump
            // is hidden; so has the theory's error.
            samples[c] = _own.Move(
                sample, z.Slice(ModelFrom, 3), moves ? _own.ShareBetween(others[c], sample) : 1);
        }
    }

    /// <summary>
    /// Standard uncertainty of the difference at the thickness prepared: the root of the sum of squared changes by each
    /// input.
    /// </summary>
    /// <remarks>
    /// First order (JCGM 100:2008, 5.1.3 note 2) where the difference is linear. Near a difference of 0, where either
    /// sign of an input makes it larger, the changes do not cancel, as half their difference would.
    /// </remarks>
    public double StandardUncertainty() => Math.Sqrt(Changes().Sum(change => change.Squares));

    /// <summary>
    /// Inputs by what they do; several directions of one input (noise, L*, a*, b*) are shown as one, by the root of
    /// their squares.
    /// </summary>
    public IReadOnlyList<Contribution> Contributions()
    {
        double nominal = Difference(new double[Dimensions]);
        List<Change> changes = [.. Changes().Where(change => change.Squares > 1e-24)];
        double total = changes.Sum(change => change.Squares);
        return Guard.Copy(changes
            .GroupBy(change => InputOf(change.Dimension))
            .Select(group =>
            {
                double squares = group.Sum(change => change.Squares), root = Math.Sqrt(squares);
                (double low, double high) = group.Count() == 1
                    ? (group.First().Low, group.First().High)
                    : (Math.Max(0, nominal - root), nominal + root);
                return new Contribution(
                    group.Key.Input, group.Key.Role, group.Key.Material, low, high, squares / total);
            })
            .OrderByDescending(contribution => contribution.Share));
    }

    // Differences with one input a standard uncertainty lower and higher.
    private IEnumerable<Change> Changes()
    {
        double[] z = new double[Dimensions];
        double nominal = Difference(z);
        for (int i = 0; i < z.Length; i++)
        {
            z[i] = -1;
            double low = Difference(z);
            z[i] = 1;
            double high = Difference(z);
            z[i] = 0;
            yield return new Change(
                i, low, high, (((low - nominal) * (low - nominal)) + ((high - nominal) * (high - nominal))) / 2);
        }
    }

    private double ThicknessOf(LayerRole role, double wallMm) =>
        _zone.Wall.Restoration.LayersOf(wallMm).First(item => item.Role == role).Layer.ThicknessMm;

    private Span<double> Row(double[] rows, int row) => rows.AsSpan(row * _width, _width);

    private static Lab Moved(Lab color, ReadOnlySpan<double> z, double size) =>
        new(color.L + (size * z[0]), color.A + (size * z[1]), color.B + (size * z[2]));

    private readonly record struct Change(int Dimension, double Low, double High, double Squares);

    private readonly record struct Input(UncertainInput Kind, LayerRole Role, Material Material, double Size);
}
