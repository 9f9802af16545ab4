using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Selection;

/// <summary>The colours that loads of stain give at all places, with their derivatives. Not for use by two threads at once.</summary>
internal sealed class StainProblem
{
    private readonly StainLayer _layer;
    private readonly IReadOnlyList<Pigment> _pigments;
    private readonly ColorCriterion _criterion;
    private readonly ViewingConditions _conditions;
    private readonly IReadOnlyList<StainPlace> _places;
    private readonly ThicknessSweep[] _sweeps;
    private readonly WeightingTable[] _tables;
    private readonly Lab[][] _targets;
    private readonly double[][] _metrics;
    private readonly double[][] _k, _s;
    private readonly int _n;

    // Scratch of one evaluation: the spectrum and its slopes by load.
    private readonly double[] _spectrum;
    private readonly double[][] _slopes;

    public StainProblem(
        IReadOnlyList<StainPlace> places, StainLayer layer, IReadOnlyList<Pigment> pigments, ColorCriterion criterion, ViewingConditions conditions)
    {
        (_places, _layer, _pigments, _criterion, _conditions) = (places, layer, pigments, criterion, conditions);
        WavelengthGrid grid = layer.Carrier.Grid;
        _n = grid.Count;
        Layer bare = layer.Fired([]);
        _sweeps = [.. places.Select(place =>
        {
            Guard.InRange(place.Position, 0, place.Stack.Layers.Count);
            LayerStack stack = new([.. place.Stack.Layers.Take(place.Position), bare, .. place.Stack.Layers.Skip(place.Position)], place.Stack.Substrate, place.Stack.Coupling);
            return stack.Sweep(place.Position, conditions.Geometry);
        })];
        _tables = [.. conditions.Colorimeters.Select(colorimeter => colorimeter.Weighting(grid))];
        _targets = [.. places.Select(place => place.Target.TargetColors(conditions.Colorimeters, grid)
            ?? throw new ArgumentException($"Place '{place.Name}' is compared with {place.Target}, which is no target colour.", nameof(places)))];
        _metrics = [.. _targets.SelectMany(colors => colors.Select(Metric))];
        double density = 1 / (1 - layer.FiringShrinkage);
        foreach (Pigment pigment in pigments)
        {
            grid.RequireSame(pigment.Absorption.Grid, $"Pigment '{pigment}'");
        }

        _k = [.. pigments.Select(pigment => Array.ConvertAll(pigment.Absorption.Values.ToArray(), value => value * density))];
        _s = [.. pigments.Select(pigment => Array.ConvertAll(pigment.Scattering.Values.ToArray(), value => value * density))];
        _spectrum = new double[_n];
        _slopes = [.. Enumerable.Range(0, layer.MaximumPigments).Select(_ => new double[_n])];
        Residuals = new double[3 * _metrics.Length];
        ResidualSlopes = [.. _slopes.Select(_ => new double[Residuals.Length])];
    }

    /// <summary>Largest load of one pigment.</summary>
    public double MaximumLoad => _layer.MaximumLoad;

    /// <summary>Pairs of place and illuminant.</summary>
    public int Blocks => _metrics.Length;

    /// <summary>Offsets from the targets at the last loads evaluated, three a block, in units of CIEDE2000 near the target.</summary>
    public double[] Residuals { get; }

    /// <summary>Their derivatives, one row a pigment of the set.</summary>
    public double[][] ResidualSlopes { get; }

    /// <summary>Largest difference over places and illuminants with these loads of these pigments.</summary>
    public double Worst(int[] set, double[] loads) => Enumerable.Range(0, _places.Count).Max(place => WorstAt(place, set, loads).Difference);

    public StainRecipe Describe(int[] set, double[] loads, int mixtures, int starts, int agreeing)
    {
        IReadOnlyList<WorstCase> without = Guard.Copy(_places.Select((_, place) => WorstAt(place, [], [])));
        IReadOnlyList<WorstCase> with = Guard.Copy(_places.Select((_, place) => WorstAt(place, set, loads)));
        double metamerism = Enumerable.Range(0, _places.Count).Max(place => Metamerism(place, set, loads));
        IReadOnlyList<StainPart> parts = Guard.Copy(set
            .Select((pigment, j) => new StainPart(_pigments[pigment], loads[j]))
            .Where(part => part.Load > 1e-6 * _layer.MaximumLoad)
            .OrderByDescending(part => part.Load));
        IReadOnlyList<Caution> cautions =
            [.. Caution.OfShortSpectra(_tables), .. Caution.OfEstimates(_places.Select(place => place.Stack.Substrate), _places.Select(place => place.Target), _conditions.Colorimeters)];
        return new StainRecipe(parts, without, with, metamerism, with.Max(place => place.Difference) <= _criterion.Limit, mixtures, starts, agreeing, cautions);
    }

    /// <summary>Weighted sum of the squared residuals; renews residuals and slopes.</summary>
    public double Evaluate(int[] set, double[] loads, double[] weights)
    {
        double cost = 0;
        for (int place = 0; place < _places.Count; place++)
        {
            Spectrum(place, set, loads, withSlopes: true);
            for (int c = 0; c < _tables.Length; c++)
            {
                int block = (place * _tables.Length) + c;
                WeightingTable table = _tables[c];
                Xyz xyz = table.SumInLanes(_spectrum);
                Lab color = Lab.FromXyz(xyz, table.White), target = _targets[place][c];
                ApplyMetric(block, color.L - target.L, color.A - target.A, color.B - target.B, Residuals);
                for (int p = 0; p < set.Length; p++)
                {
                    Xyz by = table.SumInLanes(_slopes[p]);
                    double fx = Lab.FSlope(xyz.X / table.White.X) * by.X / table.White.X;
                    double fy = Lab.FSlope(xyz.Y / table.White.Y) * by.Y / table.White.Y;
                    double fz = Lab.FSlope(xyz.Z / table.White.Z) * by.Z / table.White.Z;
                    ApplyMetric(block, 116 * fy, 500 * (fx - fy), 200 * (fy - fz), ResidualSlopes[p]);
                }

                double norm = BlockNorm(block);
                cost += weights[block] * norm * norm;
            }
        }

        return cost;
    }

    private void Spectrum(int place, int[] set, double[] loads, bool withSlopes)
    {
        Material carrier = _layer.Carrier;
        double thickness = _layer.FiredThicknessMm;
        for (int i = 0; i < _n; i++)
        {
            double k = carrier.Absorption[i], s = carrier.Scattering[i];
            for (int p = 0; p < set.Length; p++)
            {
                k += loads[p] * _k[set[p]][i];
                s += loads[p] * _s[set[p]][i];
            }

            if (!withSlopes)
            {
                _spectrum[i] = _sweeps[place].ReflectanceAt(i, k, s, thickness);
                continue;
            }

            (_spectrum[i], double byK, double byS) = _sweeps[place].SensitivityAt(i, k, s, thickness);
            for (int p = 0; p < set.Length; p++)
            {
                _slopes[p][i] = (byK * _k[set[p]][i]) + (byS * _s[set[p]][i]);
            }
        }
    }

    private WorstCase WorstAt(int place, int[] set, double[] loads)
    {
        Spectrum(place, set, loads, withSlopes: false);
        WorstCase? worst = null;
        for (int c = 0; c < _tables.Length; c++)
        {
            Lab color = Lab.FromXyz(_tables[c].SumInLanes(_spectrum), _tables[c].White);
            double difference = _criterion.Difference(_targets[place][c], color);
            if (worst is null || difference > worst.Difference)
            {
                worst = new WorstCase(_layer.FiredThicknessMm, difference, _places[place].Stack.Substrate, _conditions.Colorimeters[c], _targets[place][c], color);
            }
        }

        return worst!;
    }

    private double Metamerism(int place, int[] set, double[] loads)
    {
        Spectrum(place, set, loads, withSlopes: false);
        Lab[] offsets = [.. _tables.Select((table, c) =>
        {
            Lab color = Lab.FromXyz(table.SumInLanes(_spectrum), table.White), target = _targets[place][c];
            return new Lab(color.L - target.L, color.A - target.A, color.B - target.B);
        })];
        return offsets.Max(offset => ColorDifference.Cie76(offsets[0], offset));
    }

    /// <summary>Length of the largest of the residuals.</summary>
    public double LargestBlockNorm => Enumerable.Range(0, Blocks).Max(BlockNorm);

    /// <summary>Length of the residual of one block.</summary>
    public double BlockNorm(int block)
    {
        double x = Residuals[3 * block], y = Residuals[(3 * block) + 1], z = Residuals[(3 * block) + 2];
        return Math.Sqrt((x * x) + (y * y) + (z * z));
    }

    private void ApplyMetric(int block, double l, double a, double b, double[] destination)
    {
        double[] metric = _metrics[block];
        destination[3 * block] = metric[0] * l;
        destination[(3 * block) + 1] = (metric[1] * a) + (metric[2] * b);
        destination[(3 * block) + 2] = (metric[3] * a) + (metric[4] * b);
    }

    // Small offsets from a colour in units of CIEDE2000: lightness over SL, chroma over SC and hue over SH along the colour's own directions.
    // From the formula itself by small steps, so that the two cannot part.
    private static double[] Metric(Lab at)
    {
        const double Step = 1e-3, NoHue = 1;
        if (at.Chroma < NoHue)
        {
            return [ColorDifference.Ciede2000Terms(at, at with { L = at.L + Step }).WeightedLightness / Step, 1, 0, 0, 1];
        }

        Ciede2000Terms light = ColorDifference.Ciede2000Terms(at, at with { L = at.L + Step });
        Ciede2000Terms red = ColorDifference.Ciede2000Terms(at, at with { A = at.A + Step });
        Ciede2000Terms yellow = ColorDifference.Ciede2000Terms(at, at with { B = at.B + Step });
        return [light.WeightedLightness / Step, red.WeightedChroma / Step, yellow.WeightedChroma / Step, red.WeightedHue / Step, yellow.WeightedHue / Step];
    }
}
