using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>
/// Readings through windows: those of a large area by any theory, times the share that two-flux theory gives, times a
/// factor for what that theory does not describe.
/// </summary>
/// <remarks>
/// The factor is near 1 and changes slowly with K and S, so that it may be kept while a fit goes on and then be set
/// again.
/// </remarks>
internal sealed class WindowDiscModel : IDiscForwardModel
{
    private const double RelativeStep = 1e-5, SmallestStep = 1e-6, LargestStep = 0.1;

    private readonly DiscSet _set;
    private readonly IDiscForwardModel _wide;
    private readonly TwoFluxDiscModel _twoFlux;
    private readonly AreaWeights _areas;
    private readonly double[][] _factors;
    private readonly CircularReading?[][] _weights;

    /// <param name="set">The readings.</param>
    /// <param name="wide">What a large area reads.</param>
    /// <param name="twoFlux">The same by two-flux theory.</param>
    /// <param name="areas">Weights of spots and windows.</param>
    public WindowDiscModel(DiscSet set, IDiscForwardModel wide, TwoFluxDiscModel twoFlux, AreaWeights areas)
    {
        (_set, _wide, _twoFlux, _areas) = (set, wide, twoFlux, areas);
        _factors = [.. Enumerable.Range(0, set.Grid.Count).Select(
            _ => Enumerable.Repeat(1.0, set.Readings.Count).ToArray())];
        _weights = [.. Enumerable.Range(0, set.Grid.Count).Select(_ => new CircularReading?[set.Readings.Count])];
    }

    /// <summary>Starts at one wavelength with factors on a line through those of two before, or of one.</summary>
    public void ContinueFactors(int before, int last, int to)
    {
        for (int r = 0; r < _factors[to].Length; r++)
        {
            double own = _factors[last][r];
            double step = before < 0 ? 0 : (own - _factors[before][r]) * (to - last) / (last - before);
            _factors[to][r] = Math.Abs(step) < LargestStep * own ? own + step : own;
        }
    }

    /// <summary>Sets the factors so that shares are as given for these constants.</summary>
    public void SetShares(int wavelength, double k, double s, double[] shares)
    {
        for (int r = 0; r < shares.Length; r++)
        {
            _weights[wavelength][r] = null;
            double share = Share(r, wavelength, k, s);
            _factors[wavelength][r] = share > 0 ? shares[r] / share : 1;
        }
    }

    /// <summary>Reading through the window as a share of that of a large area.</summary>
    public double ShareOf(int reading, int wavelength, double k, double s) =>
        Share(reading, wavelength, k, s) * _factors[wavelength][reading];

    /// <summary>What a large area reads, with its derivatives.</summary>
    public (double Value, double ByAbsorption, double ByScattering) EvaluateWide(
        int reading, int wavelength, double k, double s) => _wide.Evaluate(reading, wavelength, k, s);

    public double Value(int reading, int wavelength, double k, double s) =>
        _wide.Value(reading, wavelength, k, s) * ShareOf(reading, wavelength, k, s);

    public (double Value, double ByAbsorption, double ByScattering) Evaluate(
        int reading, int wavelength, double k, double s)
    {
        (double wide, double byK, double byS) = _wide.Evaluate(reading, wavelength, k, s);
        if (!_set.Readings[reading].Area.HasWindow)
        {
            return (wide, byK, byS);
        }

        double stepK = Math.Max(SmallestStep, RelativeStep * k), stepS = Math.Max(SmallestStep, RelativeStep * s);
        double share = ShareOf(reading, wavelength, k, s);
        return (
            wide * share,
            (byK * share) + (wide * (ShareOf(reading, wavelength, k + stepK, s) - share) / stepK),
            (byS * share) + (wide * (ShareOf(reading, wavelength, k, s + stepS) - share) / stepS));
    }

    private double Share(int reading, int wavelength, double k, double s)
    {
        ReadingArea area = _set.Readings[reading].Area;
        double wide = area.HasWindow ? _twoFlux.Value(reading, wavelength, k, s) : 0;
        if (!(wide > 0))
        {
            return 1;
        }

        // What the side of a disc does changes slowly too.
        CircularReading weights = _weights[wavelength][reading]
            ??= _areas.For(area, k, s, _set.RefractiveIndex.At(_set.Grid[wavelength]));
        double[] values = new double[LateralFrequencies.Count];
        for (int j = 0; j < values.Length; j++)
        {
            (double ownK, double ownS) = TwoFluxLateralSampler.EffectiveAt(k, s, LateralFrequencies.PerMm[j]);
            values[j] = _twoFlux.Value(reading, wavelength, ownK, ownS);
        }

        return Math.Max(0, weights.Of(values)) / wide;
    }
}
