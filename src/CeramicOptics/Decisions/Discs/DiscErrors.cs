using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Discs;

/// <summary>One disc with the readings of it, by their positions in a pool.</summary>
internal sealed record PooledDisc(double ThicknessMm, double ThicknessStandardUncertaintyMm, int[] Readings);

/// <summary>
/// Readings made and readings that could be made, with their slopes; and the errors of K and S that the fit of any
/// choice of them has.
/// </summary>
/// <remarks>
/// The fit is weighted least squares at each wavelength, N = Σ w J Jᵀ, w = 1/u². Noise gives K and S the covariance
/// N⁻¹. An error that many readings have in common (thickness of a disc, a backing, the instrument's scale), which
/// moves reading r by d_r, moves them by N⁻¹ Σ w J d: at all wavelengths together. Those are the errors that the fit
/// will have, not the smallest possible ones, because the fit does not know of common errors. Immutable.
/// </remarks>
internal sealed class DiscErrors
{
    // Shift of a backing's reflectance for its slope.
    private const double BackingStep = 1e-3;

    private readonly int _wavelengths;
    private readonly IReadOnlyList<DiscReading> _readings;
    private readonly double[] _k, _s, _enlargement;
    private readonly Slopes[][] _slopes;
    private readonly DiscPlanOptions _options;

    /// <param name="pool">All readings, made first.</param>
    /// <param name="made">Number of readings made.</param>
    /// <param name="material">K, S and theory; its wavelengths are among those of the pool.</param>
    /// <param name="options">Uncertainties of backings and scale.</param>
    /// <param name="progress">Receives the completed fraction, 0 to 1.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    public DiscErrors(
        DiscSet pool, int made, Material material, DiscPlanOptions options, Action<double> progress,
        CancellationToken cancellation)
    {
        (_readings, _options, _wavelengths) = (pool.Readings, options, material.Grid.Count);
        (_k, _s) = (material.Absorption.Values.ToArray(), material.Scattering.Values.ToArray());
        IDiscForwardModel forward = CoefficientFit.ForwardModel(pool, material.Model),
            lighter = CoefficientFit.ForwardModel(Lighter(pool), material.Model);
        _slopes = new Slopes[_wavelengths][];
        _enlargement = new double[_wavelengths];
        double squares = 0;
        for (int i = 0; i < _wavelengths; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            int at = pool.Grid.IndexOf(material.Grid[i]);
            double chi = 0;
            _slopes[i] = new Slopes[_readings.Count];
            for (int r = 0; r < _readings.Count; r++)
            {
                (double value, double byK, double byS) = forward.Evaluate(r, at, _k[i], _s[i]);
                double byBacking = IsIdeal(_readings[r].Backing)
                    ? 0
                    : (lighter.Value(r, at, _k[i], _s[i]) - value) / BackingStep;
                _slopes[i][r] = new Slopes(value, byK, byS, byBacking);
                double miss = r < made ? (_readings[r].Values[at] - value) / _readings[r].StandardUncertainty : 0;
                chi += miss * miss;
            }

            squares += chi;
            _enlargement[i] = made > 2 ? Math.Max(1, chi / (made - 2)) : 1;
            progress((i + 1.0) / _wavelengths);
        }

        RootMeanSquareMiss = made == 0 ? 0 : Math.Sqrt(squares / (made * _wavelengths));
    }

    /// <summary>How far the readings made lie from what K and S predict, in standard uncertainties.</summary>
    public double RootMeanSquareMiss { get; }

    /// <summary>
    /// Independent errors of K and S from the fit of all readings of some discs: noise, then each common error; null
    /// where they leave K or S open at some wavelength.
    /// </summary>
    public IReadOnlyList<CoefficientUncertainty>? Of(IReadOnlyList<PooledDisc> discs)
    {
        int[] readings = [.. discs.SelectMany(disc => disc.Readings)];
        List<double[]> common = [.. CommonErrors(discs)];
        double[] uK = new double[_wavelengths], uS = new double[_wavelengths], rho = new double[_wavelengths];
        double[][] movesK = [.. common.Select(_ => new double[_wavelengths])],
            movesS = [.. common.Select(_ => new double[_wavelengths])];
        for (int i = 0; i < _wavelengths; i++)
        {
            double kk = 0, ss = 0, ks = 0;
            foreach (int r in readings)
            {
                double weight = WeightOf(r);
                Slopes at = _slopes[i][r];
                kk += weight * at.ByK * at.ByK;
                ss += weight * at.ByS * at.ByS;
                ks += weight * at.ByK * at.ByS;
            }

            double determinant = (kk * ss) - (ks * ks);
            uK[i] = Math.Sqrt(_enlargement[i] * ss / determinant);
            uS[i] = Math.Sqrt(_enlargement[i] * kk / determinant);
            rho[i] = Math.Min(1, Math.Max(-1, -ks / Math.Sqrt(kk * ss)));
            if (!(determinant > 0) || CoefficientFit.IsOpen(_k[i], _s[i], uK[i], uS[i]))
            {
                return null;
            }

            for (int m = 0; m < common.Count; m++)
            {
                double alongK = 0, alongS = 0;
                foreach (int r in readings)
                {
                    double move = WeightOf(r) * MoveOf(i, r, common[m]);
                    alongK += move * _slopes[i][r].ByK;
                    alongS += move * _slopes[i][r].ByS;
                }

                movesK[m][i] = ((ss * alongK) - (ks * alongS)) / determinant;
                movesS[m][i] = ((kk * alongS) - (ks * alongK)) / determinant;
            }
        }

        double[] none = new double[_wavelengths];
        return
        [
            new CoefficientUncertainty(uK, uS, rho, 0),
            .. common.Select((_, m) => new CoefficientUncertainty(none, none, none, 0, movesK[m], movesS[m])),
        ];
    }

    // What each common error does: for each reading its share of thickness, backing and scale, one after another.
    private IEnumerable<double[]> CommonErrors(IReadOnlyList<PooledDisc> discs)
    {
        double[] NewError() => new double[3 * _readings.Count];
        foreach (PooledDisc disc in discs.Where(disc => disc.ThicknessStandardUncertaintyMm > 0))
        {
            double[] thicker = NewError();
            foreach (int r in disc.Readings)
            {
                thicker[3 * r] = disc.ThicknessStandardUncertaintyMm / disc.ThicknessMm;
            }

            yield return thicker;
        }

        foreach (IGrouping<Substrate, int> tile in discs.SelectMany(disc => disc.Readings)
            .Where(r => _options.BackingReflectance > 0 && !IsIdeal(_readings[r].Backing))
            .GroupBy(r => _readings[r].Backing!.Substrate))
        {
            double[] lighter = NewError();
            foreach (int r in tile)
            {
                lighter[(3 * r) + 1] = _options.BackingReflectance;
            }

            yield return lighter;
        }

        if (_options.InstrumentScale > 0)
        {
            double[] scale = NewError();
            for (int r = 0; r < _readings.Count; r++)
            {
                scale[(3 * r) + 2] = _options.InstrumentScale;
            }

            yield return scale;
        }
    }

    // A disc's optics depend on K t and S t alone, so that a relative error of t is one of K and S together.
    private double MoveOf(int wavelength, int reading, double[] error)
    {
        Slopes at = _slopes[wavelength][reading];
        return (error[3 * reading] * ((_k[wavelength] * at.ByK) + (_s[wavelength] * at.ByS)))
            + (error[(3 * reading) + 1] * at.ByBacking) + (error[(3 * reading) + 2] * at.Value);
    }

    private double WeightOf(int reading) =>
        1 / (_readings[reading].StandardUncertainty * _readings[reading].StandardUncertainty);

    private static bool IsIdeal(Backing? backing) => backing?.Substrate.Grid is null;

    private static DiscSet Lighter(DiscSet pool)
    {
        Dictionary<Backing, Backing> shifted = pool.Readings.Select(reading => reading.Backing).OfType<Backing>()
            .Distinct().ToDictionary(
                backing => backing, backing => new Backing(backing.Substrate.Shifted(BackingStep), backing.Coupling));
        return DiscSet.Imagined(pool, pool.Readings.Select(
            reading => reading.Backing is { } backing ? reading.Over(shifted[backing]) : reading));
    }

    private readonly record struct Slopes(double Value, double ByK, double ByS, double ByBacking);
}
