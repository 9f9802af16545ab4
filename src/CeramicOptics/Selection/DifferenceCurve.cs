using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Selection;

/// <summary>Worst colour difference over stumps and illuminants as a function of one layer's thickness, with bounds between points.</summary>
/// <remarks>
/// At each wavelength the reflectance is monotone in the thickness (<see cref="ThicknessSweep"/>), so between two thicknesses every
/// spectrum lies between its two end spectra, XYZ lies in a box, and so does Lab. A difference formula changes no faster than a
/// constant times the CIELAB distance moved, which bounds the difference over the whole interval. That is what lets all crossings be
/// found, however the curve turns. CIEDE2000 itself jumps where two hues are opposite; where they can come to that, the largest jump is allowed for.
/// </remarks>
internal sealed class DifferenceCurve
{
    // Largest change of CIEDE2000 for a unit move in CIELAB, away from opposite hues, in a search over 64 million random pairs
    // (tests/reference/ciede2000_lipschitz.py): 2.96 at CIELAB distances up to 15, 5.6 up to 30, 20 up to 60. Bounded here by 3 up to 15 and
    // by 3 (distance / 15)² beyond.
    private const double Ciede2000Steepness = 3, SteepnessDistance = 15;

    private readonly IReadOnlyList<Substrate> _substrates;
    private readonly IReadOnlyList<Colorimeter> _colorimeters;
    private readonly ThicknessSweep[] _sweeps;
    private readonly ThicknessSweep? _referenceSweep;
    private readonly Lab[]? _fixedReference;
    private readonly WeightingTable[] _tables;
    private readonly bool _isCiede2000;

    public DifferenceCurve(
        LayerStack stack, int variableLayer, IReadOnlyList<Substrate> substrates, MaskingReference reference, ColorCriterion criterion, ViewingConditions conditions)
    {
        (Stack, VariableLayer, Conditions) = (stack, variableLayer, conditions);
        Criterion = criterion;
        Reference = reference;
        _substrates = substrates;
        _colorimeters = conditions.Colorimeters;
        _isCiede2000 = criterion.Formula == ColorDifferenceFormula.Ciede2000;
        _tables = [.. _colorimeters.Select(colorimeter => colorimeter.Weighting(stack.Grid))];
        _sweeps = [.. substrates.Select(substrate => stack.WithSubstrate(substrate).Sweep(variableLayer, conditions.Geometry))];
        if (reference.Substrate is not null)
        {
            _referenceSweep = stack.WithSubstrate(reference.Substrate).Sweep(variableLayer, conditions.Geometry);
        }
        else
        {
            _fixedReference = FixedReference(stack.Grid);
        }
    }

    public LayerStack Stack { get; }

    public int VariableLayer { get; }

    public ViewingConditions Conditions { get; }

    public ColorCriterion Criterion { get; }

    public MaskingReference Reference { get; }

    public IReadOnlyList<WeightingTable> Tables => _tables;

    public IReadOnlyList<Substrate> Substrates => _substrates;

    public CurvePoint Evaluate(double thicknessMm)
    {
        double[][] spectra = [.. _sweeps.Select(sweep => Evaluate(sweep, thicknessMm))];
        double[]? reference = _referenceSweep is null ? null : Evaluate(_referenceSweep, thicknessMm);
        int count = _colorimeters.Count;
        Lab[] references = new Lab[count];
        Lab[,] colors = new Lab[spectra.Length, count];
        double[,] differences = new double[spectra.Length, count];
        (int Substrate, int Colorimeter) worst = (0, 0);
        for (int c = 0; c < count; c++)
        {
            references[c] = reference is null ? _fixedReference![c] : ToLab(c, reference);
            for (int s = 0; s < spectra.Length; s++)
            {
                colors[s, c] = ToLab(c, spectra[s]);
                differences[s, c] = Criterion.Difference(references[c], colors[s, c]);
                worst = differences[s, c] > differences[worst.Substrate, worst.Colorimeter] ? (s, c) : worst;
            }
        }

        return new CurvePoint(thicknessMm, spectra, reference, colors, references, differences, worst);
    }

    public WorstCase Describe(CurvePoint point)
    {
        (int s, int c) = point.WorstAt;
        return new WorstCase(point.ThicknessMm, point.Worst, _substrates[s], _colorimeters[c], point.References[c], point.Colors[s, c]);
    }

    /// <summary>Numbers between which the worst difference stays from one point to the other.</summary>
    public (double Lower, double Upper) Bounds(CurvePoint a, CurvePoint b)
    {
        double lower = 0, upper = 0;
        for (int c = 0; c < _tables.Length; c++)
        {
            (double referenceA, double referenceB) = a.Reference is null
                ? (0, 0)
                : Reach(_tables[c], a.Reference, b.Reference!, a.References[c], b.References[c]);
            for (int s = 0; s < _sweeps.Length; s++)
            {
                (double fromA, double fromB) = Reach(_tables[c], a.Spectra[s], b.Spectra[s], a.Colors[s, c], b.Colors[s, c]);
                double distance = ColorDifference.Cie76(a.References[c], a.Colors[s, c]) + fromA + referenceA, steepness = Steepness(distance);
                double moveA = (steepness * (fromA + referenceA)) + Jump(a.References[c], referenceA, a.Colors[s, c], fromA);
                double moveB = (steepness * (fromB + referenceB)) + Jump(b.References[c], referenceB, b.Colors[s, c], fromB);
                lower = Math.Max(lower, Math.Max(a.Differences[s, c] - moveA, b.Differences[s, c] - moveB));
                upper = Math.Max(upper, Math.Min(a.Differences[s, c] + moveA, b.Differences[s, c] + moveB));
            }
        }

        return (lower, upper);
    }

    /// <summary>Standard uncertainty of the difference at one point for its limiting stump and illuminant, first order.</summary>
    /// <remarks>
    /// JCGM 100:2008, 5.1.3 note 2: each input moved up and down by its standard uncertainty, half the change squared and added. K and S
    /// at one wavelength are split into two independent inputs by the Cholesky factor of their covariance.
    /// </remarks>
    public double StandardUncertainty(CurvePoint point)
    {
        (int s, int c) = point.WorstAt;
        ThicknessSweep sweep = _sweeps[s];
        double t = point.ThicknessMm, variance = 0;
        WeightingTable table = _tables[c];
        Xyz sample = table.ToXyz(point.Spectra[s]), reference = ReferenceXyz(point, c);

        double Difference(Xyz sampleXyz, Xyz referenceXyz) =>
            Criterion.Difference(Lab.FromXyz(referenceXyz, table.White), Lab.FromXyz(sampleXyz, table.White));

        void Add(double up, double down) => variance += (up - down) * (up - down) / 4;

        if (sweep.Material.Uncertainty is { } uncertainty)
        {
            Xyz Moved(Xyz from, int i, double change) =>
                new(from.X + (table.X[i] * change), from.Y + (table.Y[i] * change), from.Z + (table.Z[i] * change));

            double WithCoefficients(int i, double k, double sc)
            {
                (k, sc) = (Math.Max(0, k), Math.Max(0, sc));
                double sampleChange = sweep.ReflectanceAt(i, k, sc, t) - point.Spectra[s][i];
                return Difference(Moved(sample, i, sampleChange), Moved(reference, i, ReferenceChange(point, s, i, k, sc)));
            }

            ReadOnlySpan<double> absorption = sweep.Material.Absorption.Values, scattering = sweep.Material.Scattering.Values;
            for (int i = 0; i < absorption.Length; i++)
            {
                double k = absorption[i], sc = scattering[i];
                double uK = uncertainty.AbsorptionPerMm[i], uS = uncertainty.ScatteringPerMm[i], rho = uncertainty.Correlation[i];
                double alone = uS * Math.Sqrt(1 - (rho * rho));
                Add(WithCoefficients(i, k + uK, sc + (rho * uS)), WithCoefficients(i, k - uK, sc - (rho * uS)));
                Add(WithCoefficients(i, k, sc + alone), WithCoefficients(i, k, sc - alone));
            }

            double Scaled(double factor)
            {
                Xyz sampleXyz = sample, referenceXyz = reference;
                for (int i = 0; i < sweep.Grid.Count; i++)
                {
                    double k = sweep.Material.Absorption[i] * factor, sc = sweep.Material.Scattering[i] * factor;
                    sampleXyz = Moved(sampleXyz, i, sweep.ReflectanceAt(i, k, sc, t) - point.Spectra[s][i]);
                    referenceXyz = Moved(referenceXyz, i, ReferenceChange(point, s, i, k, sc));
                }

                return Difference(sampleXyz, referenceXyz);
            }

            Add(Scaled(1 + uncertainty.RelativeScale), Scaled(1 - uncertainty.RelativeScale));
        }

        double OverShifted(double by)
        {
            ThicknessSweep shifted = Stack.WithSubstrate(_substrates[s].Shifted(by)).Sweep(VariableLayer, Conditions.Geometry);
            return Difference(table.ToXyz(Evaluate(shifted, t)), reference);
        }

        double stumpUncertainty = Conditions.StumpStandardUncertainty;
        if (stumpUncertainty > 0)
        {
            Add(OverShifted(stumpUncertainty), OverShifted(-stumpUncertainty));
        }

        return Math.Sqrt(variance);
    }

    private double Steepness(double distance)
    {
        double relative = Math.Max(1, distance / SteepnessDistance);
        return _isCiede2000 ? Ciede2000Steepness * relative * relative : 1;
    }

    // What CIEDE2000 can jump by while two colours move so far. Its chroma and hue parts together are at most the root of 2 (for the rotation) times the
    // sum of both chromas, which its stretched a* makes up to 1.5 times as long; a straight move of both passes opposition at most twice. From hues within a
    // right angle the way to opposition is so long that the steepness covers the jump (same script).
    private double Jump(Lab reference, double referenceMove, Lab color, double colorMove)
    {
        const double Largest = 2 * 1.4143 * 1.5;
        double cosine = (reference.A * color.A) + (reference.B * color.B);
        if (!_isCiede2000 || cosine >= 0)
        {
            return 0;
        }

        double referenceChroma = reference.Chroma, chroma = color.Chroma;
        double apart = Math.Abs(Math.Atan2((reference.A * color.B) - (reference.B * color.A), cosine));
        return apart + Turn(referenceChroma, referenceMove) + Turn(chroma, colorMove) >= Math.PI
            ? Largest * (referenceChroma + referenceMove + chroma + colorMove)
            : 0;
    }

    // Largest change of the hue angle, in radians, of a colour that moves so far.
    private static double Turn(double chroma, double move) => move < chroma ? Math.Asin(move / chroma) : Math.PI;

    // How far, in CIELAB, a colour can be from its values at the two ends of an interval.
    private static (double FromA, double FromB) Reach(WeightingTable table, double[] a, double[] b, Lab labA, Lab labB)
    {
        Span<double> low = stackalloc double[3], high = stackalloc double[3];
        for (int i = 0; i < a.Length; i++)
        {
            double min = Math.Min(a[i], b[i]), max = Math.Max(a[i], b[i]);
            Widen(table.X[i], min, max, ref low[0], ref high[0]);
            Widen(table.Y[i], min, max, ref low[1], ref high[1]);
            Widen(table.Z[i], min, max, ref low[2], ref high[2]);
        }

        double xLow = Lab.F(low[0] / table.White.X), xHigh = Lab.F(high[0] / table.White.X);
        double yLow = Lab.F(low[1] / table.White.Y), yHigh = Lab.F(high[1] / table.White.Y);
        double zLow = Lab.F(low[2] / table.White.Z), zHigh = Lab.F(high[2] / table.White.Z);
        Lab from = new((116 * yLow) - 16, 500 * (xLow - yHigh), 200 * (yLow - zHigh));
        Lab to = new((116 * yHigh) - 16, 500 * (xHigh - yLow), 200 * (yHigh - zLow));
        return (Farthest(labA, from, to), Farthest(labB, from, to));
    }

    private static void Widen(double weight, double min, double max, ref double low, ref double high)
    {
        low += weight * (weight >= 0 ? min : max);
        high += weight * (weight >= 0 ? max : min);
    }

    private static double Farthest(Lab point, Lab from, Lab to)
    {
        double l = Math.Max(Math.Abs(point.L - from.L), Math.Abs(to.L - point.L));
        double a = Math.Max(Math.Abs(point.A - from.A), Math.Abs(to.A - point.A));
        double b = Math.Max(Math.Abs(point.B - from.B), Math.Abs(to.B - point.B));
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static double[] Evaluate(ThicknessSweep sweep, double thicknessMm)
    {
        double[] spectrum = new double[sweep.Grid.Count];
        sweep.Reflectance(thicknessMm, spectrum);
        return spectrum;
    }

    private Lab ToLab(int colorimeter, double[] spectrum) => _tables[colorimeter].ToLab(spectrum.AsSpan());

    private Xyz ReferenceXyz(CurvePoint point, int c) =>
        point.Reference is null ? point.References[c].ToXyz(_tables[c].White) : _tables[c].ToXyz(point.Reference);

    // The reference moves with the coefficients too, unless it is a target.
    private double ReferenceChange(CurvePoint point, int s, int i, double k, double sc)
    {
        if (_referenceSweep is not null)
        {
            return _referenceSweep.ReflectanceAt(i, k, sc, point.ThicknessMm) - point.Reference![i];
        }

        if (Reference != MaskingReference.SelfBacked)
        {
            return 0;
        }

        Material material = _sweeps[s].Material;
        return _sweeps[s].InfiniteReflectanceAt(i, k, sc) - _sweeps[s].InfiniteReflectanceAt(i, material.Absorption[i], material.Scattering[i]);
    }

    private Lab[] FixedReference(WavelengthGrid grid)
    {
        if (Reference.TargetColors(_colorimeters, grid) is { } colors)
        {
            return colors;
        }

        ReflectanceSpectrum spectrum = _sweeps[0].InfiniteReflectance();
        return [.. _colorimeters.Select(colorimeter => colorimeter.ToLab(spectrum))];
    }
}
