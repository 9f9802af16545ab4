using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>Evaluates combinations of ceramic, veneer and cement for one case, fast.</summary>
internal sealed class MatchEvaluator
{
    private readonly RestorationCase _restoration;
    private readonly IReadOnlyList<Colorimeter> _colorimeters;
    private readonly WeightingTable[] _tables;
    private readonly Lab[][] _targets;
    private readonly double[][] _thicknesses;
    private readonly BoundaryCache _boundaries = new();

    public MatchEvaluator(RestorationCase restoration, MatchOptions options)
    {
        _restoration = Guard.NotNull(restoration);
        Veneers = Guard.NotNull(options).VeneerChoices;
        CementSets = options.CementPerZone ? [options.Cements] : [.. options.Cements.Select(cement => (IReadOnlyList<Layer>)[cement])];
        _colorimeters = restoration.Conditions.Colorimeters;
        Spectra.WavelengthGrid grid = options.Ceramics[0].Material.Grid;
        _tables = [.. _colorimeters.Select(colorimeter => colorimeter.Weighting(grid))];
        _targets = [.. restoration.Zones.Select(zone => zone.Reference.TargetColors(_colorimeters, grid)
            ?? throw new ArgumentException($"Zone '{zone.Name}' is compared with {zone.Reference}, which is no target colour.", nameof(restoration)))];
        _thicknesses = [.. restoration.Zones.Select(zone => Thicknesses(zone.ThinnestMm ?? zone.AvailableThicknessMm, zone.AvailableThicknessMm, options.ThicknessStepMm))];
    }

    public enum Verdict
    {
        Complete,
        Pruned,
        TooThin,
    }

    /// <summary>Veneers to lay over each ceramic; null for none.</summary>
    public IReadOnlyList<Material?> Veneers { get; }

    /// <summary>Cements between which each zone may choose, one set a combination.</summary>
    public IReadOnlyList<IReadOnlyList<Layer>> CementSets { get; }

    public static double[] Thicknesses(double from, double to, double step)
    {
        int steps = (int)Math.Ceiling(((to - from) / step) - 1e-9);
        return [.. Enumerable.Range(0, steps + 1).Select(i => i == steps ? to : from + (i * (to - from) / steps))];
    }

    public Build Prepare(Ceramic ceramic, Material? veneer, IReadOnlyList<Layer> cements) => new(this, ceramic, veneer, cements);

    public double Mean(ZoneChoice[] zones) => Zone.WeightedMean(zones.Select((choice, z) => (_restoration.Zones[z], choice.Worst)));

    public MatchCandidate Describe(Ceramic ceramic, Material? veneer, double share, ZoneChoice[] choices)
    {
        List<ZoneMatch> zones = [];
        for (int z = 0; z < choices.Length; z++)
        {
            ZoneChoice choice = choices[z];
            Zone zone = _restoration.Zones[z];
            LayerStack stack = StackOf(ceramic, veneer, share, choice.WallMm, choice.Cement, zone.Substrate);
            WorstCase worst = new(
                choice.WallMm, choice.Worst, zone.Substrate, _colorimeters[choice.Colorimeter], _targets[z][choice.Colorimeter], choice.Color);
            zones.Add(new ZoneMatch(zone, stack, choice.WallMm, choice.Cement, worst));
        }

        return new MatchCandidate(ceramic, veneer, share, zones.AsReadOnly(), choices.All(choice => choice.Worst <= _restoration.Criterion.Limit));
    }

    public IReadOnlyList<Caution> Cautions(int tooThin)
    {
        List<Caution> cautions = [Caution.Strength, Caution.ToothReduction];
        if (tooThin > 0)
        {
            cautions.Add(new Caution(
                CautionKind.StructuralMinimumGoverns,
                $"{Guard.Text(tooThin)} combination(s) were left out because a zone has no room for the structural minimum of {Guard.Text(_restoration.Conditions.StructuralMinimumMm!.Value)} mm."));
        }

        cautions.AddRange(Caution.OfShortSpectra(_tables));
        cautions.AddRange(Caution.OfEstimates(_restoration.Zones.Select(zone => zone.Substrate), _restoration.Zones.Select(zone => zone.Reference), _colorimeters));
        return cautions.AsReadOnly();
    }

    private LayerStack StackOf(Ceramic ceramic, Material? veneer, double share, double wallMm, Layer cement, Substrate substrate) =>
        new([.. _restoration.LayersAbove, .. new WallDesign(ceramic, veneer, share).Layers(wallMm), .. _restoration.LayersBelow, cement], substrate, _restoration.Coupling);

    /// <summary>What one zone gets.</summary>
    public readonly record struct ZoneChoice(double Worst, double WallMm, Layer Cement, int Colorimeter, Lab Color);

    /// <summary>One ceramic and veneer with the cements to choose between, compiled for every zone.</summary>
    public sealed class Build
    {
        private readonly MatchEvaluator _owner;
        private readonly IReadOnlyList<Layer> _cements;
        private readonly StackKernel[,] _kernels;
        private readonly double[][] _layersMm;
        private readonly double[] _spectrum;
        private readonly Ceramic _ceramic;
        private readonly Material? _veneer;

        public Build(MatchEvaluator owner, Ceramic ceramic, Material? veneer, IReadOnlyList<Layer> cements)
        {
            (_owner, _ceramic, _veneer, _cements) = (owner, ceramic, veneer, cements);
            IReadOnlyList<Zone> zones = owner._restoration.Zones;
            _kernels = new StackKernel[cements.Count, zones.Count];
            _layersMm = new double[cements.Count][];
            for (int c = 0; c < cements.Count; c++)
            {
                for (int z = 0; z < zones.Count; z++)
                {
                    LayerStack stack = owner.StackOf(ceramic, veneer, 0.5, 1, cements[c], zones[z].Substrate);
                    _kernels[c, z] = new StackKernel(stack, owner._restoration.Conditions.Geometry, owner._boundaries);
                    _layersMm[c] = [.. stack.Layers.Select(layer => layer.ThicknessMm)];
                }
            }

            _spectrum = new double[_kernels[0, 0].Grid.Count];
        }

        /// <summary>The best choice in every zone; stops as soon as a zone is worse than the bar.</summary>
        public Verdict Evaluate(double share, double bar, out ZoneChoice[] zones)
        {
            zones = new ZoneChoice[_kernels.GetLength(1)];
            double minimum = _owner._restoration.Conditions.StructuralMinimumMm ?? 0;
            for (int z = 0; z < zones.Length; z++)
            {
                ZoneChoice best = new(double.PositiveInfinity, 0, _cements[0], 0, default);
                foreach (double wall in _owner._thicknesses[z])
                {
                    if ((1 - share) * wall < minimum - 1e-12)
                    {
                        continue;
                    }

                    for (int c = 0; c < _cements.Count; c++)
                    {
                        ZoneChoice choice = EvaluateZone(z, c, share, wall, best.Worst);
                        best = choice.Worst < best.Worst ? choice : best;
                    }
                }

                if (double.IsInfinity(best.Worst))
                {
                    return Verdict.TooThin;
                }

                if (best.Worst > bar)
                {
                    return Verdict.Pruned;
                }

                zones[z] = best;
            }

            return Verdict.Complete;
        }

        private ZoneChoice EvaluateZone(int z, int c, double share, double wall, double bar)
        {
            double[] layers = _layersMm[c];
            new WallDesign(_ceramic, _veneer, share).SetThicknesses(layers, _owner._restoration.LayersAbove.Count, wall);
            _kernels[c, z].Reflectance(layers, 0, _spectrum);
            ZoneChoice worst = new(-1, wall, _cements[c], 0, default);
            for (int i = 0; i < _owner._tables.Length && worst.Worst < bar; i++)
            {
                WeightingTable table = _owner._tables[i];
                Lab color = Lab.FromXyz(table.SumInLanes(_spectrum), table.White);
                double difference = _owner._restoration.Criterion.Difference(_owner._targets[z][i], color);
                worst = difference > worst.Worst ? worst with { Worst = difference, Colorimeter = i, Color = color } : worst;
            }

            return worst;
        }
    }
}
