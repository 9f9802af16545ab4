using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>What a <see cref="WallNeighbour"/> has moved.</summary>
internal enum MovedQuantity
{
    /// <summary>Thickness of a layer, mm.</summary>
    Thickness,

    /// <summary>K at every wavelength, 1/mm.</summary>
    Absorption,

    /// <summary>S at every wavelength, 1/mm.</summary>
    Scattering,

    /// <summary>Refractive index.</summary>
    RefractiveIndex,
}

/// <summary>
/// A compiled wall with one quantity of one layer moved a little: derivatives of the reflectance over the thickness of
/// the wall.
/// </summary>
/// <remarks>
/// Differences are polynomials of degree 6 by the coarse form of the theory, right to about one per cent; by an index,
/// whose change moves the directions of radiative transfer, to about ten. Enough for uncertainties.
/// </remarks>
internal sealed class WallNeighbour
{
    private const int Degree = 6;
    private const double ThicknessStepMm = 0.002, IndexStep = 0.002;

    private readonly StackResponse _base, _moved;
    private readonly double[] _steps;

    private WallNeighbour(
        LayerRole role, Layer layer, MovedQuantity quantity, StackResponse from, StackResponse moved, double[] steps) =>
        (Role, Material, Quantity, _base, _moved, _steps) = (role, layer.Material, quantity, from, moved, steps);

    public LayerRole Role { get; }

    public Material Material { get; }

    public MovedQuantity Quantity { get; }

    public Chebyshev Axis => _moved.Axes[0];

    /// <summary>Every quantity that uncertainties ask for.</summary>
    public static IReadOnlyList<WallNeighbour> All(
        CompiledWall wall, StackResponse response, CancellationToken cancellation)
    {
        List<WallNeighbour> neighbours = [];
        IOpticalModel coarse = response.Stack.Model.Coarse;
        StackResponse from = StackResponse.Compile(
            response.Stack, response.Geometry, response.Varied, cancellation, coarse, Degree);
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = wall.Restoration.LayersOf(wall.Wall.Range.MaxMm);
        InputUncertainty inputs = wall.Restoration.Uncertainty;
        bool isMonolithic = wall.Restoration.Veneer is null;
        for (int j = 0; j < layers.Count; j++)
        {
            int at = j;
            (LayerRole role, Layer layer) = layers[at];
            Material material = layer.Material;

            // The thickness and scale of a monolithic wall need no neighbour: they are a change of what varies.
            bool isWall = isMonolithic && role == LayerRole.Core;
            bool needsThickness = inputs.ThicknessMm(role) > 0 || material.Uncertainty?.RelativeScale > 0;
            if (!isWall && needsThickness)
            {
                Add(MovedQuantity.Thickness, material, ThicknessStepMm, [.. Enumerable.Repeat(
                    ThicknessStepMm, material.Grid.Count)]);
            }

            if (material.Uncertainty is { MovesAnyAlone: true })
            {
                (double[] stepK, double[] stepS) = CoefficientSteps.Of(material);
                AbsorptionSpectrum movedK = new(material.Grid, Sum(material.Absorption.Values, stepK));
                ScatteringSpectrum movedS = new(material.Grid, Sum(material.Scattering.Values, stepS));
                Add(
                    MovedQuantity.Absorption, With(material, movedK, material.Scattering, material.RefractiveIndex), 0,
                    stepK);
                Add(
                    MovedQuantity.Scattering, With(material, material.Absorption, movedS, material.RefractiveIndex), 0,
                    stepS);
            }

            if (inputs.RefractiveIndex > 0)
            {
                // Towards smaller indices, which exist for every material but a gas.
                RefractiveIndex index = material.RefractiveIndex;
                double smallest = Math.Min(index.At(material.Grid.StartNm), index.At(material.Grid.EndNm));
                double step = Math.Min(index.Constant, smallest) - IndexStep >= 1 ? -IndexStep : IndexStep;
                Material moved = With(
                    material, material.Absorption, material.Scattering,
                    new RefractiveIndex(index.Constant + step, index.CauchyNm2));
                Add(MovedQuantity.RefractiveIndex, moved, 0, [.. Enumerable.Repeat(step, material.Grid.Count)]);
            }

            void Add(MovedQuantity quantity, Material moved, double thicker, double[] steps)
            {
                VariableThickness varied = response.Varied[0];
                bool follows = varied.Parts.Any(part => part.Layer == at);
                double mm = layer.ThicknessMm + (follows ? 0 : thicker);
                LayerStack stack = new(
                    layers.Select((item, i) => i == at ? new Layer(moved, mm) : item.Layer),
                    response.Stack.Substrate, response.Stack.Coupling);
                if (follows && thicker > 0)
                {
                    varied = new VariableThickness(
                        varied.Parts.Select(part => part.Layer == at
                            ? part with { OffsetMm = part.OffsetMm + thicker }
                            : part),
                        varied.Range);
                }

                StackResponse neighbour = StackResponse.Compile(
                    stack, response.Geometry, [varied], cancellation, coarse, Degree);
                neighbours.Add(new WallNeighbour(role, layer, quantity, from, neighbour, steps));
            }
        }

        return neighbours;
    }

    /// <summary>
    /// Derivative of the reflectance over a substrate by the quantity, at the points of <see cref="Axis"/>: by point,
    /// then wavelength.
    /// </summary>
    public double[] SlopesOver(Substrate substrate) => Slopes(_moved.AtNodes(substrate), _base.AtNodes(substrate));

    /// <summary>The same with the core infinitely thick.</summary>
    public double[] InfiniteSlopes(int core) => Slopes(_moved.InfiniteAtNodes(core), _base.InfiniteAtNodes(core));

    private static double[] Sum(ReadOnlySpan<double> values, double[] steps) =>
        [.. values.ToArray().Zip(steps, (value, step) => value + step)];

    private static Material With(
        Material material, AbsorptionSpectrum absorption, ScatteringSpectrum scattering, RefractiveIndex index) =>
        new(material.Name, material.Model, absorption, scattering, index);

    private double[] Slopes(double[] moved, double[] from)
    {
        int n = _steps.Length;
        double[] slopes = new double[moved.Length];
        for (int at = 0; at < slopes.Length; at++)
        {
            slopes[at] = (moved[at] - from[at]) / _steps[at % n];
        }

        return slopes;
    }
}
