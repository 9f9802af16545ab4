using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>K and S from readings of discs.</summary>
/// <remarks>
/// By radiative transfer, and for any mix of readings, weighted least squares at each wavelength. For two-flux theory
/// and one disc over two backings, the exact inversion of Kubelka's formulas. Two readings determine two numbers and
/// leave nothing by which to judge the theory; a disc far from the thickness of use may mislead.
/// </remarks>
public static class DiscCharacterization
{
    /// <summary>Finds K and S at every wavelength of a set of readings.</summary>
    /// <param name="discs">The readings.</param>
    /// <param name="options">Theory and smoothness; the default when null.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    /// <returns>K and S with uncertainties, or a finding, for each wavelength.</returns>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CharacterizationResult Find(
        DiscSet discs, CharacterizationOptions? options = null, IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Guard.NotNull(discs);
        options ??= new CharacterizationOptions();
        cancellation.ThrowIfCancellationRequested();
        CharacterizationResult result;
        if (options is { Model: TwoFluxModel, Smoothness: 0 } && !discs.HasWindows
            && DiscPair.Of(discs, options.Model) is { } pair)
        {
            result = TwoFluxInversion.Solve(pair, WindowReport.NotStated(discs, options, cancellation));
            progress?.Report(1);
        }
        else
        {
            result = CoefficientFit.Solve(discs, options, progress, cancellation);
        }

        return result.With(CouplingComparison.Find(discs, options, result, cancellation));
    }
}
