using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// The colours that loads of stain give in all zones, with their derivatives. Not for use by two threads at once.
/// </summary>
internal sealed class StainProblem
{
    private readonly Restoration _restoration;
    private readonly StainOptions _options;
    private readonly ZoneComparison[] _zones;
    private readonly StainResponse[] _responses;
    private readonly IReadOnlyList<WeightingTable> _tables;
    private readonly double[][] _metrics;
    private readonly double[][] _k, _s;
    private readonly int _n;

    // Scratch of one evaluation: the spectrum and its slopes by load.
    private readonly double[] _spectrum;
    private readonly double[][] _slopes;

    public StainProblem(Restoration restoration, StainOptions options, CancellationToken cancellation)
    {
        (_restoration, _options) = (restoration, options);
        CompiledWall wall = new(restoration, cancellation);
        _zones = [.. restoration.Zones.Select(zone => new ZoneComparison(wall, zone))];
        _tables = _zones[0].Tables;
        _n = _tables[0].Grid.Count;
        _metrics = [.. _zones.SelectMany(zone => zone.Targets!.Select(Metric))];
        double density = options.Layer.Density;
        _k = [.. options.Pigments.Select(pigment =>
            Array.ConvertAll(pigment.Absorption.Values.ToArray(), value => value * density))];
        _s = [.. options.Pigments.Select(pigment =>
            Array.ConvertAll(pigment.Scattering.Values.ToArray(), value => value * density))];
        double[] mostK = Most(_k), mostS = Most(_s);
        _responses = [.. restoration.Zones.Select(zone =>
            StainResponse.Of(layer =>
                StackWith(zone, layer), options.Layer, mostK, mostS, restoration.Viewing.Geometry, cancellation))];
        _spectrum = new double[_n];
        _slopes = [.. Enumerable.Range(0, options.MaximumPigments).Select(_ => new double[_n])];
        Residuals = new double[3 * _metrics.Length];
        ResidualSlopes = [.. _slopes.Select(_ => new double[Residuals.Length])];
    }

    /// <summary>Largest load of one pigment.</summary>
    public double MaximumLoad => _options.MaximumLoad;

    /// <summary>Pairs of zone and illuminant.</summary>
    public int Blocks => _metrics.Length;

    /// <summary>
    /// Offsets from the targets at the last loads evaluated, three per block, in units of CIEDE2000 near the target.
    /// </summary>
    public double[] Residuals { get; }

    /// <summary>Their derivatives, one row per pigment of the set.</summary>
    public double[][] ResidualSlopes { get; }

    /// <summary>Length of the largest of the residuals.</summary>
    public double LargestBlockNorm
    {
        get
        {
            double largest = 0;
            for (int block = 0; block < Blocks; block++)
            {
                largest = Math.Max(largest, BlockNorm(block));
            }

            return largest;
        }
    }

    /// <summary>Largest difference over zones and illuminants with these loads of these pigments.</summary>
    public double Worst(int[] set, double[] loads)
    {
        double worst = 0;
        for (int z = 0; z < _zones.Length; z++)
        {
            Spectrum(z, set, loads);
            worst = Math.Max(worst, _zones[z].Difference(_spectrum));
        }

        return worst;
    }

    /// <summary>The recipe; what it states is evaluated directly, without the smooth response.</summary>
    public StainRecipe Describe(int[] set, double[] loads, int mixtures, int starts, int agreeing)
    {
        IReadOnlyList<StainPart> parts = Guard.Copy(set
            .Select((pigment, j) => new StainPart(_options.Pigments[pigment], loads[j]))
            .Where(part => part.Load > 1e-6 * MaximumLoad)
            .OrderByDescending(part => part.Load));
        Layer carrier = _options.Layer.Fired([]), mixed = _options.Layer.Fired(parts);
        ZoneStain[] zones = [.. _zones.Select(zone =>
        {
            double wallMm = zone.Zone.AvailableMm;
            double[] with = SpectrumWith(zone.Zone, mixed);
            return new ZoneStain(zone.Zone, zone.At(wallMm), zone.Of(SpectrumWith(zone.Zone, carrier), wallMm),
                zone.Of(with, wallMm), Metamerism(zone, with));
        })];
        return new StainRecipe(
            _restoration, _options, parts, zones, mixtures, starts, agreeing,
            Guard.Copy(DecisionCautions.Of(_restoration).Append(Caution.PredictionAlone)));
    }

    /// <summary>Weighted sum of the squared residuals; renews residuals and slopes.</summary>
    public double Evaluate(int[] set, double[] loads, double[] weights)
    {
        double cost = 0;
        for (int z = 0; z < _zones.Length; z++)
        {
            Spectrum(z, set, loads);
            for (int c = 0; c < _tables.Count; c++)
            {
                int block = (z * _tables.Count) + c;
                WeightingTable table = _tables[c];
                Xyz xyz = table.SumInLanes(_spectrum);
                Lab color = Lab.FromXyz(xyz, table.White), target = _zones[z].Targets![c];
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

    /// <summary>Length of the residual of one block.</summary>
    public double BlockNorm(int block)
    {
        double x = Residuals[3 * block], y = Residuals[(3 * block) + 1], z = Residuals[(3 * block) + 2];
        return Math.Sqrt((x * x) + (y * y) + (z * z));
    }

    private LayerStack StackWith(Zone zone, Layer stain)
    {
        IReadOnlyList<(LayerRole Role, Layer Layer)> layers = _restoration.LayersOf(zone.AvailableMm);
        bool IsAbove(LayerRole role) =>
            _options.Placement == StainPlacement.UnderVeneer && role is LayerRole.Glaze or LayerRole.Veneer;
        return new LayerStack(
            [.. layers.Where(item => IsAbove(item.Role)).Select(item => item.Layer), stain,
                .. layers.Where(item => !IsAbove(item.Role)).Select(item => item.Layer)],
            zone.Stump, _restoration.Coupling);
    }

    private double[] SpectrumWith(Zone zone, Layer stain) =>
        StackWith(zone, stain).Reflectance(_restoration.Viewing.Geometry).Values.ToArray();

    private void Spectrum(int zone, int[] set, double[] loads)
    {
        for (int i = 0; i < _n; i++)
        {
            double k = 0, s = 0;
            for (int p = 0; p < set.Length; p++)
            {
                k += loads[p] * _k[set[p]][i];
                s += loads[p] * _s[set[p]][i];
            }

            _spectrum[i] = _responses[zone].At(i, k, s, out double byK, out double byS);
            for (int p = 0; p < set.Length; p++)
            {
                _slopes[p][i] = (byK * _k[set[p]][i]) + (byS * _s[set[p]][i]);
            }
        }
    }

    // The largest sum of as many pigments as may be mixed, at each wavelength.
    private double[] Most(double[][] byPigment) =>
        [.. Enumerable.Range(0, _n).Select(i => MaximumLoad * byPigment.Select(values => values[i])
            .OrderByDescending(value => value).Take(_options.MaximumPigments).Sum())];

    private double Metamerism(ZoneComparison zone, double[] spectrum)
    {
        Lab[] offsets = [.. _tables.Select((table, c) =>
        {
            Lab color = Lab.FromXyz(table.SumInLanes(spectrum), table.White), target = zone.Targets![c];
            return new Lab(color.L - target.L, color.A - target.A, color.B - target.B);
        })];
        return offsets.Max(offset => ColorDifference.Cie76(offsets[0], offset));
    }

    private void ApplyMetric(int block, double l, double a, double b, double[] destination)
    {
        double[] metric = _metrics[block];
        destination[3 * block] = metric[0] * l;
        destination[(3 * block) + 1] = (metric[1] * a) + (metric[2] * b);
        destination[(3 * block) + 2] = (metric[3] * a) + (metric[4] * b);
    }

    // Small offsets from a colour in units of CIEDE2000: lightness over SL, chroma over SC and hue over SH along the
    // colour's own directions.
    // From the formula itself by small steps, so that the two cannot part.
    private static double[] Metric(Lab at)
    {
        const double Step = 1e-3, NoHue = 1;
        Ciede2000Terms light = ColorDifference.Ciede2000Terms(at, at with { L = at.L + Step });
        if (at.Chroma < NoHue)
        {
            return [light.WeightedLightness / Step, 1, 0, 0, 1];
        }

        Ciede2000Terms red = ColorDifference.Ciede2000Terms(at, at with { A = at.A + Step });
        Ciede2000Terms yellow = ColorDifference.Ciede2000Terms(at, at with { B = at.B + Step });
        return [light.WeightedLightness / Step, red.WeightedChroma / Step, yellow.WeightedChroma / Step,
            red.WeightedHue / Step, yellow.WeightedHue / Step];
    }
}
