using CeramicOptics.Characterization;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// Standard uncertainties of the coefficients of a pigment or of its carrier, from readings, thicknesses, loads and a
/// carrier that was given.
/// </summary>
/// <remarks>
/// First order (JCGM 100:2008, 5.1). An error of a thickness or a load, or one of the carrier that all wavelengths have
/// in common, moves the coefficients at all wavelengths: as much of that as is a common factor goes to the common
/// scale, the rest to the noise.
/// </remarks>
internal sealed class PigmentUncertainty
{
    private readonly PigmentFit?[] _fits;
    private readonly int _first;
    private readonly double[] _kk, _ss, _ks;

    /// <param name="problem">The layers.</param>
    /// <param name="fits">Solutions by wavelength; null where there is none.</param>
    /// <param name="first">Position of K among the unknowns, with S behind it.</param>
    public PigmentUncertainty(PigmentProblem problem, PigmentFit?[] fits, int first)
    {
        (_fits, _first) = (fits, first);
        int n = fits.Length;
        (_kk, _ss, _ks) = (new double[n], new double[n], new double[n]);
        for (int i = 0; i < n; i++)
        {
            if (fits[i] is { } fit)
            {
                _kk[i] = fit.Covariance![first, first] * fit.Enlargement;
                _ss[i] = fit.Covariance[first + 1, first + 1] * fit.Enlargement;
                _ks[i] = fit.Covariance[first, first + 1] * fit.Enlargement;
            }
        }

        double scale = 0;
        for (int j = 0; j < problem.Layers.Count; j++)
        {
            int layer = j;
            foreach (IGrouping<double, DiscReading> disc in
                problem.Layers[j].Layer.Readings.GroupBy(reading => reading.ThicknessMm))
            {
                double relative = disc.Max(reading => reading.ThicknessStandardUncertaintyMm) / disc.Key;
                scale += AddCommon((row, i) => row.Layer == layer && row.Reading.ThicknessMm == disc.Key
                    ? relative * Change(row, problem.Of(problem.Layers[layer], fits[i]!.Values, i))
                    : 0);
            }

            Drawdown drawdown = problem.Layers[j];
            scale += AddCommon((row, i) => row.Layer == layer
                ? drawdown.LoadRelativeUncertainty * drawdown.LoadAsRead
                    * Change(row, (fits[i]!.Values[0], fits[i]!.Values[1]))
                : 0);
        }

        if (problem.Carrier?.Uncertainty is { } carrier)
        {
            scale += AddCommon((row, i) => carrier.RelativeScale * problem.Layers[row.Layer].CarrierShare
                * Change(row, problem.CarrierAt(fits[i]!.Values, i)));
            scale += AddCommon((row, i) => problem.Layers[row.Layer].CarrierShare
                * Change(row, (carrier.CommonAbsorptionPerMm[i], carrier.CommonScatteringPerMm[i])));
            for (int i = 0; i < n; i++)
            {
                double uK = carrier.AbsorptionPerMm[i], uS = carrier.ScatteringPerMm[i], rho = carrier.Correlation[i];
                AddNoise(i, row => problem.Layers[row.Layer].CarrierShare * ((uK * row.ByK) + (rho * uS * row.ByS)));
                AddNoise(i, row =>
                    problem.Layers[row.Layer].CarrierShare * Math.Sqrt(1 - (rho * rho)) * uS * row.ByS);
            }
        }

        RelativeScale = Math.Min(1, Math.Sqrt(scale));
        Solutions = [.. fits.Select((fit, i) => fit is null
            ? null
            : CharacterizationResult.Solution.FromCovariance(
                fit.Values[first], fit.Values[first + 1], _kk[i], _ss[i], _ks[i]))];
    }

    public CharacterizationResult.Solution?[] Solutions { get; }

    public double RelativeScale { get; }

    // Change of a reading, in its standard uncertainties, with changes of K and S of its layer.
    private static double Change(PigmentProblem.Row row, (double K, double S) by) =>
        (row.ByK * by.K) + (row.ByS * by.S);

    // An error common to all wavelengths; returns the square of the common factor that it amounts to.
    private double AddCommon(Func<PigmentProblem.Row, int, double> change)
    {
        int n = _fits.Length;
        var moves = new double[n][];
        double product = 0, square = 0;
        for (int i = 0; i < n; i++)
        {
            int at = i;
            moves[i] = _fits[i]?.Shift(row => change(row, at)) ?? [];
            if (moves[i].Length > 0)
            {
                double k = _fits[i]!.Values[_first], s = _fits[i]!.Values[_first + 1];
                product += (moves[i][_first] * k) + (moves[i][_first + 1] * s);
                square += (k * k) + (s * s);
            }
        }

        double factor = square > 0 ? product / square : 0;
        for (int i = 0; i < n; i++)
        {
            if (moves[i].Length > 0)
            {
                AddSquares(
                    i, moves[i][_first] - (factor * _fits[i]!.Values[_first]),
                    moves[i][_first + 1] - (factor * _fits[i]!.Values[_first + 1]));
            }
        }

        return factor * factor;
    }

    private void AddNoise(int i, Func<PigmentProblem.Row, double> change)
    {
        if (_fits[i]?.Shift(change) is { } move)
        {
            AddSquares(i, move[_first], move[_first + 1]);
        }
    }

    private void AddSquares(int i, double k, double s) =>
        (_kk[i], _ss[i], _ks[i]) = (_kk[i] + (k * k), _ss[i] + (s * s), _ks[i] + (k * s));
}
