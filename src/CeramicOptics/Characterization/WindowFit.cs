using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>K and S from readings of which some lose light sideways.</summary>
/// <remarks>
/// At each wavelength a fit with a kept factor (<see cref="WindowDiscModel"/>) takes turns with the exact share of
/// radiative transfer at lateral frequencies, until the readings stand still. For two-flux theory, whose own share
/// fails for clear materials, the shares are those found by radiative transfer. Where the anisotropy of scattering is
/// not known, half the change of the readings from one end of its range to the other is taken as the half width of a
/// rectangular distribution (JCGM 100, 4.3.7), common to all readings and wavelengths.
/// </remarks>
internal sealed class WindowFit
{
    private const int Rounds = 15;

    // Of the readings' noise; and in reflectance where it is larger or smaller.
    private const double ShareOfNoise = 0.03, LeastChange = 1e-6, MostChange = 5e-5;

    private readonly DiscSet _discs;
    private readonly TransportDiscModel _transport;
    private readonly WindowDiscModel _first, _exact;
    private readonly WindowDiscModel? _twoFlux;
    private readonly TwoFluxDiscModel _twoFluxWide;
    private readonly LateralDiscModel _lateral;
    private readonly LateralDiscModel[] _ends;
    private readonly double[]?[] _common;
    private readonly CancellationToken _cancellation;
    private int _solvedBefore = -1, _solved = -1;

    public WindowFit(
        DiscSet discs, IOpticalModel model, double? anisotropy, TwoFluxDiscModel twoFlux,
        CancellationToken cancellation)
    {
        AreaWeights areas = new();
        (_discs, _twoFluxWide, _cancellation) = (discs, twoFlux, cancellation);
        _transport = new TransportDiscModel(discs, model as TransportModel ?? TransportModel.Default);
        _first = new WindowDiscModel(discs, twoFlux, twoFlux, areas);
        _exact = new WindowDiscModel(discs, _transport, twoFlux, areas);
        _twoFlux = model is TwoFluxModel ? new WindowDiscModel(discs, twoFlux, twoFlux, areas) : null;
        anisotropy ??= UnknownAnisotropy.IsStatedBy(model) ? ((TransportModel)model).Anisotropy : null;
        double own = anisotropy ?? UnknownAnisotropy.Usual;
        _lateral = new LateralDiscModel(
            discs, _transport, own, TransportLateralSampler.StreamsFor(own), areas, cancellation);
        _ends = anisotropy is not null ? []
            : [.. ((double[])[UnknownAnisotropy.Least, UnknownAnisotropy.Most]).Select(end => new LateralDiscModel(
                discs, _transport, end, UnknownAnisotropy.CoarseStreams, areas, cancellation))];
        _common = new double[]?[discs.Grid.Count];
    }

    /// <summary>What readings should be, once their wavelength is solved.</summary>
    public WindowDiscModel Forward => _twoFlux ?? _exact;

    /// <summary>
    /// Moves of the readings at a wavelength by one standard deviation of what is not known of the anisotropy; null
    /// where it is known.
    /// </summary>
    public double[]? CommonAt(int wavelength) => _common[wavelength];

    /// <summary>The fit at one wavelength; null when it does not come to rest.</summary>
    public WavelengthFit? Solve(int wavelength, (double K, double S) start)
    {
        WavelengthFit first = WavelengthFit.Solve(_discs, _first, wavelength, start), fit = first;
        if (_solved >= 0)
        {
            _exact.ContinueFactors(_solvedBefore, _solved, wavelength);
        }

        double[]? common = null;
        bool isAtRest = false;
        for (int round = 0; round < Rounds && !isAtRest; round++)
        {
            _cancellation.ThrowIfCancellationRequested();
            fit = WavelengthFit.Solve(_discs, _exact, wavelength, (fit.K, fit.S), common);
            double[] shares = _lateral.SharesAt(wavelength, fit.K, fit.S);
            isAtRest = IsAtRest(wavelength, fit, shares)
                && (_discs.Readings.Count == 2 || common is not null || _ends.Length == 0);
            _exact.SetShares(wavelength, fit.K, fit.S, shares);
            _cancellation.ThrowIfCancellationRequested();
            common ??= MovesAt(wavelength, fit);
        }

        if (!isAtRest)
        {
            return null;
        }

        (_solvedBefore, _solved, _common[wavelength]) = (_solved, wavelength, common);
        fit = WavelengthFit.Solve(_discs, _exact, wavelength, (fit.K, fit.S), common);
        return _twoFlux is null ? fit : ByTwoFlux(wavelength, fit, (first.K, first.S));
    }

    // Shares are a matter of the disc, not of the theory; how they change with K and S is taken from the theory itself.
    private WavelengthFit ByTwoFlux(int wavelength, WavelengthFit exact, (double K, double S) start)
    {
        double[] shares = [.. _discs.Readings.Select((_, r) => _exact.ShareOf(r, wavelength, exact.K, exact.S))];
        WavelengthFit fit = WavelengthFit.Solve(
            _discs, new Held(_twoFluxWide, shares), wavelength, start, _common[wavelength]);
        _twoFlux!.SetShares(wavelength, fit.K, fit.S, shares);
        return WavelengthFit.At(_discs, _twoFlux, wavelength, fit.K, fit.S, _common[wavelength]);
    }

    private bool IsAtRest(int wavelength, WavelengthFit fit, double[] shares)
    {
        for (int r = 0; r < shares.Length; r++)
        {
            double change = Math.Abs(shares[r] - _exact.ShareOf(r, wavelength, fit.K, fit.S))
                * _transport.Value(r, wavelength, fit.K, fit.S);
            double noise = ShareOfNoise * _discs.Readings[r].StandardUncertainty;
            if (!(change <= Math.Min(MostChange, Math.Max(LeastChange, noise))))
            {
                return false;
            }
        }

        return true;
    }

    private double[]? MovesAt(int wavelength, WavelengthFit fit)
    {
        if (_ends.Length == 0)
        {
            return null;
        }

        double[] least = _ends[0].SharesAt(wavelength, fit.K, fit.S);
        double[] most = _ends[1].SharesAt(wavelength, fit.K, fit.S);
        return [.. least.Select((share, r) =>
            (share - most[r]) / 2 / Math.Sqrt(3) * _transport.Value(r, wavelength, fit.K, fit.S))];
    }

    // Readings of which the window keeps the same shares whatever K and S.
    private sealed class Held(IDiscForwardModel wide, double[] shares) : IDiscForwardModel
    {
        public double Value(int reading, int wavelength, double k, double s) =>
            wide.Value(reading, wavelength, k, s) * shares[reading];

        public (double Value, double ByAbsorption, double ByScattering) Evaluate(
            int reading, int wavelength, double k, double s)
        {
            (double value, double byK, double byS) = wide.Evaluate(reading, wavelength, k, s);
            return (value * shares[reading], byK * shares[reading], byS * shares[reading]);
        }
    }
}
