namespace CeramicOptics.Characterization;

/// <summary>Least squares in K and S at one wavelength: the solution, its chi-square and its normal matrix.</summary>
internal sealed record WavelengthFit(
    double K, double S, double ChiSquare, double NormalKK, double NormalSS, double NormalKS)
{
    private const int MaximumIterations = 100;

    // Relative; the error left after such a step is its square, or a hundred-thousandth of it.
    private const double SmallestStep = 1e-7;

    // 1/mm; far beyond any ceramic.
    private const double Largest = 1e4;

    /// <summary>A fit that tells nothing.</summary>
    public static WavelengthFit None { get; } = new(0.1, 1, 0, 0, 0, 0);

    private double Determinant => (NormalKK * NormalSS) - (NormalKS * NormalKS);

    public double VarianceK => NormalSS / Determinant;

    public double VarianceS => NormalKK / Determinant;

    public double Covariance => -NormalKS / Determinant;

    /// <summary>Levenberg 1944, Marquardt 1963, with both coefficients projected onto zero and above.</summary>
    public static WavelengthFit Solve(
        DiscSet discs, IDiscForwardModel forward, int wavelength, (double K, double S) start)
    {
        (double k, double s) = (Math.Min(start.K, Largest), Math.Min(start.S, Largest));
        (WavelengthFit at, double gK, double gS) = Linearize(discs, forward, wavelength, k, s);
        double damping = 1e-4;
        for (int iteration = 0; iteration < MaximumIterations; iteration++)
        {
            // A coefficient at zero that wants to fall stays out of the step.
            bool holdK = at.K == 0 && gK > 0, holdS = at.S == 0 && gS > 0;
            double a = at.NormalKK * (1 + damping), b = at.NormalSS * (1 + damping), c = holdK || holdS
                ? 0
                : at.NormalKS;
            double determinant = (a * b) - (c * c);
            if (!(determinant > 0))
            {
                break;
            }

            double stepK = holdK
                ? 0
                : -((b * gK) - (c * gS)) / determinant, stepS = holdS
                ? 0
                : -((a * gS) - (c * gK)) / determinant;
            double nextK = Math.Min(Largest, Math.Max(0, at.K + stepK)), nextS = Math.Min(
                Largest, Math.Max(0, at.S + stepS));
            double nextChi = ChiSquareAt(discs, forward, wavelength, nextK, nextS);
            if (nextChi <= at.ChiSquare)
            {
                bool done = Math.Abs(nextK - at.K) <= SmallestStep * (nextK + 1e-9)
                    && Math.Abs(nextS - at.S) <= SmallestStep * (nextS + 1e-9);
                (at, gK, gS) = Linearize(discs, forward, wavelength, nextK, nextS);
                damping = Math.Max(damping / 10, 1e-12);
                if (done)
                {
                    break;
                }
            }
            else
            {
                damping *= 10;
                if (damping > 1e12)
                {
                    break;
                }
            }
        }

        return at;
    }

    public static double ChiSquareAt(DiscSet discs, IDiscForwardModel forward, int wavelength, double k, double s)
    {
        double chi = 0;
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double residual = (forward.Value(r, wavelength, k,
                s) - discs.Readings[r].Values[wavelength]) / discs.Readings[r].StandardUncertainty;
            chi += residual * residual;
        }

        return chi;
    }

    /// <summary>Residuals, measured less fitted, in units of what is left of their uncertainty after the fit.</summary>
    public IEnumerable<(int Reading, double Residual)> StudentizedResiduals(
        DiscSet discs, IDiscForwardModel forward, int wavelength)
    {
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double u = discs.Readings[r].StandardUncertainty;
            (double value, double dK, double dS) = forward.Evaluate(r, wavelength, K, S);
            double leverage = ((dK * dK * VarianceK) + (dS * dS * VarianceS) + (2 * dK * dS * Covariance)) / (u * u);
            double left = 1 - leverage;
            yield return (r, left > 1e-6 ? (discs.Readings[r].Values[wavelength] - value) / (u * Math.Sqrt(left)) : 0);
        }
    }

    /// <summary>
    /// Change of the log of the area of the uncertainty ellipse by the first readings of another set.
    /// </summary>
    public double LogAreaRatioWith(DiscSet candidate, IDiscForwardModel forward, int wavelength, int count)
    {
        (double kk, double ss, double ks) = (NormalKK, NormalSS, NormalKS);
        for (int r = 0; r < count; r++)
        {
            double weight = 1 / (candidate.Readings[r].StandardUncertainty * candidate.Readings[r].StandardUncertainty);
            (_, double dK, double dS) = forward.Evaluate(r, wavelength, K, S);
            (kk, ss, ks) = (kk + (weight * dK * dK), ss + (weight * dS * dS), ks + (weight * dK * dS));
        }

        double after = (kk * ss) - (ks * ks);
        return after > 0 && Determinant > 0 ? 0.5 * Math.Log(Determinant / after) : 0;
    }

    private static (WavelengthFit Fit, double GradientK, double GradientS) Linearize(
        DiscSet discs, IDiscForwardModel forward, int wavelength, double k, double s)
    {
        double chi = 0, kk = 0, ss = 0, ks = 0, gK = 0, gS = 0;
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double weight = 1 / discs.Readings[r].StandardUncertainty;
            (double value, double dK, double dS) = forward.Evaluate(r, wavelength, k, s);
            double residual = (value - discs.Readings[r].Values[wavelength]) * weight;
            (dK, dS) = (dK * weight, dS * weight);
            chi += residual * residual;
            (kk, ss, ks) = (kk + (dK * dK), ss + (dS * dS), ks + (dK * dS));
            (gK, gS) = (gK + (dK * residual), gS + (dS * residual));
        }

        return (new WavelengthFit(k, s, chi, kk, ss, ks), gK, gS);
    }
}
