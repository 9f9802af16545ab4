using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace CeramicOptics.Selection;

/// <summary>The difference of a stack to its reference as a function of independent standard normal inputs. Not for use by two threads at once.</summary>
internal sealed class UncertaintyModel
{
    // Directions of reading noise that carry less than this share of its variance are left out.
    private const double SmallestShare = 1e-4;

    // Coefficients and indices are moved by this share of their uncertainty for the slopes of the linear part.
    private const double SlopeStep = 0.5;

    private readonly LayerStack _stack;
    private readonly int _ceramicLayer;
    private readonly MaskingReference _reference;
    private readonly ColorCriterion _criterion;
    private readonly InputUncertainty _inputs;
    private readonly ViewingConditions _conditions;
    private readonly BoundaryMemo _boundaries = new();
    private readonly StackJudge _judge;
    private readonly double[] _scales, _nominalMm, _layersMm;
    private readonly bool _hasTarget;
    private readonly int _lights;

    // Inputs in order: thickness and scale of each layer, stump, target L*, a*, b*; then the linear ones, each a move of all tristimulus values.
    private readonly int _linearFrom;
    private readonly List<(string Name, Xyz[] Colors, Xyz[] References)> _linear = [];

    public UncertaintyModel(
        LayerStack stack, int ceramicLayer, MaskingReference reference, ColorCriterion criterion, InputUncertainty inputs, ViewingConditions conditions)
    {
        _stack = Guard.NotNull(stack);
        _ceramicLayer = Guard.InRange(ceramicLayer, 0, stack.Layers.Count - 1);
        (_reference, _criterion, _inputs, _conditions) = (Guard.NotNull(reference), Guard.NotNull(criterion), Guard.NotNull(inputs), conditions);
        if (inputs.LayerThicknessMm.Count != stack.Layers.Count)
        {
            throw new ArgumentException(
                $"inputs gives {Guard.Text(inputs.LayerThicknessMm.Count)} uncertainties of thickness but the stack has {Guard.Text(stack.Layers.Count)} layers.", nameof(inputs));
        }

        _judge = new StackJudge(stack, ceramicLayer, reference, criterion, conditions, _boundaries);
        _nominalMm = _judge.ThicknessesMm;
        _layersMm = new double[_nominalMm.Length];
        _lights = _judge.Tables.Length;
        _scales = [.. stack.Layers.Select(layer => layer.Material.Uncertainty?.RelativeScale ?? 0)];
        _hasTarget = reference.TargetColors(conditions.Colorimeters, stack.Grid) is not null;
        _linearFrom = (2 * _nominalMm.Length) + 1 + (_hasTarget ? 3 : 0);
        for (int j = 0; j < _nominalMm.Length; j++)
        {
            AddIndex(j);
            AddNoise(j);
        }
    }

    /// <summary>Number of inputs.</summary>
    public int Dimensions => _linearFrom + _linear.Count;

    public IReadOnlyList<Caution> Cautions
    {
        get
        {
            List<Caution> cautions = [Caution.Strength, .. Caution.OfShortSpectra(_judge.Tables), .. Caution.OfEstimates([_stack.Substrate], [_reference], _conditions.Colorimeters)];
            foreach (string unknown in _stack.Layers.Where(layer => layer.Material.Uncertainty is null).Select(layer => layer.Material.Name).Distinct())
            {
                cautions.Add(new Caution(
                    CautionKind.UncertaintyIncomplete, $"The uncertainty of K and S of '{unknown}' is not known and not included."));
            }

            return cautions.AsReadOnly();
        }
    }

    /// <summary>Largest difference over illuminants at the inputs; 0 for all is the stack as given.</summary>
    public double Difference(ReadOnlySpan<double> z) => Difference(z, _nominalMm[_ceramicLayer]);

    /// <summary>The same with another nominal thickness of the ceramic.</summary>
    public double Difference(ReadOnlySpan<double> z, double ceramicMm)
    {
        int m = _nominalMm.Length;
        for (int j = 0; j < m; j++)
        {
            double nominal = j == _ceramicLayer ? ceramicMm : _nominalMm[j];
            _layersMm[j] = Math.Max(0, nominal + (_inputs.LayerThicknessMm[j] * z[j])) * Math.Max(0, 1 + (_scales[j] * z[m + j]));
        }

        Span<Xyz> colors = stackalloc Xyz[_lights], references = stackalloc Xyz[_lights];
        _judge.Evaluate(_layersMm, _inputs.StumpReflectance * z[2 * m], colors, references);
        double worst = 0;
        for (int c = 0; c < _lights; c++)
        {
            (Xyz color, Xyz reference) = (colors[c], references[c]);
            for (int i = 0; i < _linear.Count; i++)
            {
                double at = z[_linearFrom + i];
                color = Plus(color, at, _linear[i].Colors[c]);
                reference = Plus(reference, at, _linear[i].References[c]);
            }

            Xyz white = _judge.Tables[c].White;
            Lab target = Lab.FromXyz(reference, white);
            if (_hasTarget)
            {
                double u = _inputs.TargetColor;
                target = new Lab(target.L + (u * z[(2 * m) + 1]), target.A + (u * z[(2 * m) + 2]), target.B + (u * z[(2 * m) + 3]));
            }

            worst = Math.Max(worst, _criterion.Difference(target, Lab.FromXyz(color, white)));
        }

        return worst;
    }

    /// <summary>Difference with one input a standard uncertainty lower and higher.</summary>
    public (double Low, double High) Around(int input)
    {
        double[] z = new double[Dimensions];
        z[input] = -1;
        double low = Difference(z);
        z[input] = 1;
        return (low, Difference(z));
    }

    public IReadOnlyList<Contribution> Contributions()
    {
        double nominal = Difference(new double[Dimensions]);
        List<(string Name, double Low, double High, double Squares)> parts = [];
        for (int i = 0; i < Dimensions; i++)
        {
            (double low, double high) = Around(i);
            parts.Add((NameOf(i), low, high, (((low - nominal) * (low - nominal)) + ((high - nominal) * (high - nominal))) / 2));
        }

        double total = parts.Sum(part => part.Squares);

        // Several directions of one input (noise, L*, a*, b*) are shown as one, by the root of their squares.
        return Guard.Copy(parts
            .Where(part => part.Squares > 0)
            .GroupBy(part => part.Name)
            .Select(group => group.Count() == 1
                ? new Contribution(group.Key, group.First().Low, group.First().High, group.First().Squares / total)
                : new Contribution(
                    group.Key,
                    Math.Max(0, nominal - Math.Sqrt(group.Sum(part => part.Squares))),
                    nominal + Math.Sqrt(group.Sum(part => part.Squares)),
                    group.Sum(part => part.Squares) / total))
            .OrderByDescending(contribution => contribution.Share));
    }

    private string NameOf(int input)
    {
        int m = _nominalMm.Length;
        return input < m ? $"thickness of {_stack.Layers[input].Material}"
            : input < 2 * m ? $"scale of K and S of {_stack.Layers[input - m].Material}"
            : input == 2 * m ? "reading of the stump"
            : input < _linearFrom ? "reading of the target"
            : _linear[input - _linearFrom].Name;
    }

    // The index of one layer up and down: half the change of all tristimulus values is one linear input.
    private void AddIndex(int layer)
    {
        double u = _inputs.RefractiveIndex;
        if (u == 0)
        {
            return;
        }

        (Xyz[] Colors, Xyz[] References) With(double by)
        {
            Material material = _stack.Layers[layer].Material;
            RefractiveIndex index = new(Math.Max(RefractiveIndex.Minimum, material.RefractiveIndex.Constant + by), material.RefractiveIndex.CauchyNm2);
            Material moved = new(material.Name, material.Absorption, material.Scattering, index);
            LayerStack stack = new(_stack.Layers.Select((item, j) => j == layer ? new Layer(moved, item.ThicknessMm) : item), _stack.Substrate, _stack.Coupling);
            (Xyz[] colors, Xyz[] references) = (new Xyz[_lights], new Xyz[_lights]);
            new StackJudge(stack, _ceramicLayer, _reference, _criterion, _conditions, _boundaries).Evaluate(_nominalMm, 0, colors, references);
            return (colors, references);
        }

        ((Xyz[] Colors, Xyz[] References) up, (Xyz[] Colors, Xyz[] References) down) = (With(SlopeStep * u), With(-SlopeStep * u));
        Xyz[] Slope(Xyz[] high, Xyz[] low) => [.. high.Zip(low, (a, b) => Plus(default, 1 / (2 * SlopeStep), Plus(a, -1, b)))];
        _linear.Add(($"refractive index of {_stack.Layers[layer].Material}", Slope(up.Colors, down.Colors), Slope(up.References, down.References)));
    }

    // Reading noise of K and S, independent at each wavelength, moves all tristimulus values together; its covariance is taken apart into a few directions.
    private void AddNoise(int layer)
    {
        if (_stack.Layers[layer].Material.Uncertainty is not { } uncertainty)
        {
            return;
        }

        Material material = _stack.Layers[layer].Material;
        double t = _nominalMm[layer];
        ThicknessSweep sweep = _stack.Sweep(layer, _conditions.Geometry);
        ThicknessSweep? reference = _hasTarget ? null
            : _reference.Substrate is { } good ? _stack.WithSubstrate(good).Sweep(layer, _conditions.Geometry)
            : layer == _ceramicLayer ? sweep
            : layer < _ceramicLayer ? _stack.WithThickness(_ceramicLayer, Layer.MaximumThicknessMm).Sweep(layer, _conditions.Geometry)
            : null;
        bool isInfinite = reference == sweep;
        int size = 6 * _lights;
        double[,] covariance = new double[size, size];
        double[] move = new double[size];
        for (int i = 0; i < _stack.Grid.Count; i++)
        {
            double uK = uncertainty.AbsorptionPerMm[i], uS = uncertainty.ScatteringPerMm[i], rho = uncertainty.Correlation[i];
            Add(uK, rho * uS);
            Add(0, Math.Sqrt(1 - (rho * rho)) * uS);

            void Add(double byK, double byS)
            {
                double Change(ThicknessSweep of, bool infinite)
                {
                    double At(double sign)
                    {
                        double k = Math.Max(0, material.Absorption[i] + (sign * SlopeStep * byK)), s = Math.Max(0, material.Scattering[i] + (sign * SlopeStep * byS));
                        return infinite ? of.InfiniteReflectanceAt(i, k, s) : of.ReflectanceAt(i, k, s, t);
                    }

                    return (At(1) - At(-1)) / (2 * SlopeStep);
                }

                double color = Change(sweep, false), other = reference is null ? 0 : Change(reference, isInfinite);
                for (int c = 0; c < _lights; c++)
                {
                    WeightingTable table = _judge.Tables[c];
                    (move[6 * c], move[(6 * c) + 1], move[(6 * c) + 2]) = (table.X[i] * color, table.Y[i] * color, table.Z[i] * color);
                    (move[(6 * c) + 3], move[(6 * c) + 4], move[(6 * c) + 5]) = (table.X[i] * other, table.Y[i] * other, table.Z[i] * other);
                }

                for (int p = 0; p < size; p++)
                {
                    for (int q = 0; q < size; q++)
                    {
                        covariance[p, q] += move[p] * move[q];
                    }
                }
            }
        }

        Matrix<double> matrix = Matrix<double>.Build.DenseOfArray(covariance);
        double trace = matrix.Trace();
        if (!(trace > 0))
        {
            return;
        }

        Evd<double> parts = matrix.Evd(Symmetricity.Symmetric);
        for (int e = size - 1; e >= 0 && parts.EigenValues[e].Real > SmallestShare * trace; e--)
        {
            double[] direction = (parts.EigenVectors.Column(e) * Math.Sqrt(parts.EigenValues[e].Real)).ToArray();
            Xyz Of(int at) => new(direction[at], direction[at + 1], direction[at + 2]);
            _linear.Add((
                $"reading noise of {material}",
                [.. Enumerable.Range(0, _lights).Select(c => Of(6 * c))],
                [.. Enumerable.Range(0, _lights).Select(c => Of((6 * c) + 3))]));
        }
    }

    private static Xyz Plus(Xyz one, double factor, Xyz other) =>
        new(one.X + (factor * other.X), one.Y + (factor * other.Y), one.Z + (factor * other.Z));
}
