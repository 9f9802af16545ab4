using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>The fit of a set of readings, wavelength by wavelength, of large areas or through windows.</summary>
internal sealed class DiscFit
{
    private readonly DiscSet _discs;
    private readonly TwoFluxDiscModel _twoFlux;

    public DiscFit(DiscSet discs, CharacterizationOptions options, CancellationToken cancellation)
    {
        (_discs, _twoFlux) = (discs, new TwoFluxDiscModel(discs));
        Windows = discs.HasWindows
            ? new WindowFit(discs, options.Model, options.Anisotropy, _twoFlux, cancellation)
            : null;
        Forward = Windows?.Forward
            ?? (options.Model is TwoFluxModel ? _twoFlux : CoefficientFit.ForwardModel(discs, options.Model));
    }

    /// <summary>The part that knows windows; null where all areas are large.</summary>
    public WindowFit? Windows { get; }

    /// <summary>What readings should be.</summary>
    public IDiscForwardModel Forward { get; }

    /// <summary>The fit at one wavelength; null when one through windows does not come to rest.</summary>
    public WavelengthFit? Solve(int wavelength)
    {
        (double K, double S) start = CoefficientFit.Start(_discs, _twoFlux, wavelength);
        return Windows is null
            ? WavelengthFit.Solve(_discs, Forward, wavelength, start)
            : Windows.Solve(wavelength, start);
    }
}
