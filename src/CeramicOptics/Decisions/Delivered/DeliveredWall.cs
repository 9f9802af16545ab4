using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>
/// Colour and slopes of one kind of wall, as the engine of all comparisons gives them, with K, S and the cement film
/// moved. Not for use by two threads at once.
/// </summary>
internal sealed class DeliveredWall
{
    private const double StumpStep = 0.005, WallStepMm = 0.005;

    private readonly CompiledWall _wall;
    private readonly InputUncertainty _inputs;
    private readonly Colorimeter _under;
    private readonly Dictionary<(Substrate Stump, double Shift), Curves> _curves = [];

    public DeliveredWall(
        Restoration plan, double logAbsorption, double logScattering, double filmMm, ThicknessRange walls,
        CancellationToken cancellation)
    {
        Material core = plan.Core.Material;
        Layer? cement = plan.Cement is null
            ? null
            : new Layer(plan.Cement.Material, Math.Max(0, plan.Cement.ThicknessMm + filmMm));
        _inputs = plan.Uncertainty;
        Restoration moved = plan.WithCore(new Ceramic(plan.Core.Family, plan.Core.Grade, Asked(Scaled(
            core, core.Name, logAbsorption, logScattering, null)))) with
        {
            WallRange = walls,

            // Uncertainties tell the engine of which layers it needs slopes: the film always.
            Uncertainty = _inputs with { CoreMm = 0, CementMm = 1 },
        };
        moved = cement is null ? moved : moved.WithCement(cement);
        _under = plan.Viewing.Colorimeters[0];
        _wall = new CompiledWall(moved, cancellation);
    }

    /// <summary>Thicknesses that are covered.</summary>
    public ThicknessRange Range => _wall.Wall.Range;

    /// <summary>A material with K and S multiplied.</summary>
    public static Material Scaled(
        Material material, string name, double logAbsorption, double logScattering, CoefficientUncertainty? uncertainty)
    {
        double k = Math.Exp(logAbsorption), s = Math.Exp(logScattering);
        return new Material(
            name, material.Model,
            new AbsorptionSpectrum(material.Grid, [.. material.Absorption.Values.ToArray().Select(value => k * value)]),
            new ScatteringSpectrum(material.Grid, [.. material.Scattering.Values.ToArray().Select(value => s * value)]),
            material.RefractiveIndex, uncertainty, material.DiscThicknessesMm);
    }

    /// <summary>Colour and slopes at one thickness over one stump whose reflectance is shifted.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A thickness that is not covered.</exception>
    public PieceColor At(Substrate stump, double shift, double wallMm)
    {
        double mm = Guard.InRange(wallMm, Range.MinMm, Range.MaxMm, "mm", "corrected wall");
        if (!_curves.TryGetValue((stump, shift), out Curves? curves))
        {
            _curves.Add((stump, shift), curves = MakeCurves(stump, shift));
        }

        Xyz white = curves.Colors.White;
        double low = Math.Max(Range.MinMm, mm - WallStepMm), high = Math.Min(Range.MaxMm, mm + WallStepMm);
        Xyz at = curves.Colors.At(mm);
        Lab lighter = Lab.FromXyz(curves.StumpUp.At(mm), white), darker = Lab.FromXyz(curves.StumpDown.At(mm), white);
        ColorDeviation Along(Curve? slopes) => slopes is null ? default : Slope(at, slopes.At(mm), white);
        return new PieceColor(
            Lab.FromXyz(at, white),
            high > low
                ? Between(
                    Lab.FromXyz(curves.Colors.At(low), white), Lab.FromXyz(curves.Colors.At(high), white), high - low)
                : default,
            Along(curves.Film), Between(darker, lighter, 2 * StumpStep), Along(curves.Absorption),
            Along(curves.Scattering), OthersAt(curves, at, mm));
    }

    // One standard deviation each.
    private List<ColorDeviation> OthersAt(Curves curves, Xyz at, double mm)
    {
        List<ColorDeviation> moves = [];
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = _wall.Restoration.LayersOf(mm);
        foreach (Other other in curves.Others)
        {
            double layerMm = layers.First(item => item.Role == other.Role).Layer.ThicknessMm;
            double size = other.Deviation + (other.Scale * layerMm);
            Xyz slope = other.Slopes.At(mm);
            moves.Add(Slope(at, new Xyz(size * slope.X, size * slope.Y, size * slope.Z), curves.Colors.White));
        }

        foreach (ReadingNoise noise in curves.Noise)
        {
            double[] directions = new double[3 * noise.Directions];
            noise.SetDirections(mm, directions, new double[directions.Length]);
            for (int i = 0; i < directions.Length; i += 3)
            {
                moves.Add(Slope(
                    at, new Xyz(directions[i], directions[i + 1], directions[i + 2]), curves.Colors.White));
            }
        }

        return moves;
    }

    private Curves MakeCurves(Substrate stump, double shift)
    {
        StackResponse response = _wall.Over(stump);
        WeightingTable table = _under.Weighting(response.Grid);
        Curve Colors(double by) => new(response.Axes[0], response.AtNodes(stump.Shifted(by)), table);
        Curve? film = null, absorption = null, scattering = null;
        Material core = _wall.Restoration.Core.Material;
        Substrate shifted = stump.Shifted(shift);
        List<Other> others = [];
        List<ReadingNoise> noise = [];
        IReadOnlyList<WallNeighbour> neighbours = _wall.NeighboursOver(stump);
        for (int i = 0; i < neighbours.Count; i++)
        {
            WallNeighbour neighbour = neighbours[i];
            double[] slopes = neighbour.SlopesOver(shifted);
            int n = response.Grid.Count;
            switch (neighbour.Quantity)
            {
                case MovedQuantity.Thickness:
                    Curve thicker = new(neighbour.Axis, slopes, table);
                    film = neighbour.Role == LayerRole.Cement ? thicker : film;
                    Add(thicker, neighbour.Role, neighbour.Role == LayerRole.Cement ? 0 : _inputs.ThicknessMm(
                        neighbour.Role), 0);
                    Add(thicker, neighbour.Role, 0, neighbour.Material.Uncertainty?.RelativeScale ?? 0);
                    break;
                case MovedQuantity.RefractiveIndex:
                    Add(new Curve(neighbour.Axis, slopes, table), neighbour.Role, _inputs.RefractiveIndex, 0);
                    break;
                case MovedQuantity.Absorption when neighbour.Role == LayerRole.Core:
                    absorption = new Curve(neighbour.Axis, Times(slopes, core.Absorption.Values, n), table);
                    break;
                case MovedQuantity.Scattering when neighbour.Role == LayerRole.Core:
                    scattering = new Curve(neighbour.Axis, Times(slopes, core.Scattering.Values, n), table);
                    break;
                case MovedQuantity.Absorption:
                    noise.Add(new ReadingNoise(
                        neighbour.Axis, neighbour.Material.Uncertainty!,
                        [slopes, neighbours[i + 1].SlopesOver(shifted), [], []], [table]));
                    break;
            }
        }

        return new Curves(
            Colors(shift), Colors(shift + StumpStep), Colors(shift - StumpStep), film, absorption, scattering, others,
            noise);

        void Add(Curve slopes, LayerRole role, double deviation, double scale)
        {
            if (deviation > 0 || scale > 0)
            {
                others.Add(new Other(slopes, role, deviation, scale));
            }
        }
    }

    private static double[] Times(double[] slopes, ReadOnlySpan<double> coefficients, int n)
    {
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] *= coefficients[i % n];
        }

        return slopes;
    }

    // dLab along a change of XYZ, by a central difference.
    private static ColorDeviation Slope(Xyz at, Xyz by, Xyz white)
    {
        const double Step = 1e-4;
        Xyz Moved(double h) => new(at.X + (h * by.X), at.Y + (h * by.Y), at.Z + (h * by.Z));
        return Between(Lab.FromXyz(Moved(-Step), white), Lab.FromXyz(Moved(Step), white), 2 * Step);
    }

    private static ColorDeviation Between(Lab from, Lab to, double apart) =>
        new((to.L - from.L) / apart, (to.A - from.A) / apart, (to.B - from.B) / apart);

    // The core's K and S are corrected, so that their slopes are asked for whatever their uncertainty.
    private static Material Asked(Material material)
    {
        double[] some = [.. Enumerable.Repeat(1e-3, material.Grid.Count)];
        CoefficientUncertainty uncertainty = new(some, some, new double[some.Length], 0);
        return Scaled(material, material.Name, 0, 0, uncertainty);
    }

    private sealed record Curves(
        Curve Colors, Curve StumpUp, Curve StumpDown, Curve? Film, Curve? Absorption, Curve? Scattering,
        IReadOnlyList<Other> Others, IReadOnlyList<ReadingNoise> Noise);

    // An input that nothing corrects: its standard deviation, and one that grows with the thickness of its layer.
    private sealed record Other(Curve Slopes, LayerRole Role, double Deviation, double Scale);

    private sealed class Curve(Chebyshev axis, double[] reflectances, WeightingTable table)
    {
        private readonly ColorCurve _colors = ColorCurve.Of(axis, reflectances, [table]);

        public Xyz White => table.White;

        public Xyz At(double mm)
        {
            Span<double> xyz = stackalloc double[3];
            _colors.Evaluate(axis.At(mm), xyz);
            return new Xyz(xyz[0], xyz[1], xyz[2]);
        }
    }
}

/// <summary>
/// A colour, and how it moves by a mm of wall, a mm of film, a unit of stump reflectance, ln K and ln S; and by one
/// standard deviation of each input that nothing corrects.
/// </summary>
internal readonly record struct PieceColor(
    Lab Color, ColorDeviation Wall, ColorDeviation Film, ColorDeviation Stump, ColorDeviation Absorption,
    ColorDeviation Scattering, IReadOnlyList<ColorDeviation> Others);
