namespace CeramicOptics.Characterization;

/// <summary>
/// Least squares in K and S at one wavelength: the solution, its chi-square, the normal matrix of its noise, and the
/// moves of K and S by one standard deviation of an error common to all readings and wavelengths.
/// </summary>
/// <remarks>
/// With noise D and moves a of the readings by the common error the weights are those of V = D + a a', V⁻¹ = D⁻¹ - D⁻¹
/// a a' D⁻¹ / (1 + a' D⁻¹ a): readings that the common error moves differently tell something of it.
/// </remarks>
internal sealed record WavelengthFit(
    double K, double S, double ChiSquare, double NormalKK, double NormalSS, double NormalKS, double CommonK = 0,
    double CommonS = 0)
{
    private const int MaximumIterations = 100;

    // Relative; the error left after such a step is its square, or a hundred-thousandth of it.
    private const double SmallestStep = 1e-7;

    // 1/mm; far beyond any ceramic.
    private const double Largest = 1e4;

    // Noise is taken as at least this share of a common error, for rounding.
    private const double LeastNoise = 1e-3;

    /// <summary>A fit that tells nothing.</summary>
    public static WavelengthFit None { get; } = new(0.1, 1, 0, 0, 0, 0);

    private double Determinant => (NormalKK * NormalSS) - (NormalKS * NormalKS);

    public double VarianceK => NormalSS / Determinant;

    public double VarianceS => NormalKK / Determinant;

    public double Covariance => -NormalKS / Determinant;

    /// <summary>Levenberg 1944, Marquardt 1963, with both coefficients projected onto zero and above.</summary>
    public static WavelengthFit Solve(
        DiscSet discs, IDiscForwardModel forward, int wavelength, (double K, double S) start,
        double[]? common = null)
    {
        (double k, double s) = (Math.Min(start.K, Largest), Math.Min(start.S, Largest));
        (WavelengthFit at, double gK, double gS) = Linearize(discs, forward, wavelength, k, s, common);
        double damping = 1e-4;
        for (int iteration = 0; iteration < MaximumIterations; iteration++)
        {
            // A coefficient at zero that wants to fall stays out of the step.
            bool holdK = at.K == 0 && gK > 0, holdS = at.S == 0 && gS > 0;
            double a = at.NormalKK * (1 + damping), b = at.NormalSS * (1 + damping);
            double c = holdK || holdS ? 0 : at.NormalKS;
            double determinant = (a * b) - (c * c);
            if (!(determinant > 0))
            {
                break;
            }

            double stepK = holdK ? 0 : -((b * gK) - (c * gS)) / determinant;
            double stepS = holdS ? 0 : -((a * gS) - (c * gK)) / determinant;
            double nextK = Math.Min(Largest, Math.Max(0, at.K + stepK));
            double nextS = Math.Min(Largest, Math.Max(0, at.S + stepS));
            double nextChi = ChiSquareAt(discs, forward, wavelength, nextK, nextS, common);
            if (nextChi <= at.ChiSquare)
            {
                bool done = Math.Abs(nextK - at.K) <= SmallestStep * (nextK + 1e-9)
                    && Math.Abs(nextS - at.S) <= SmallestStep * (nextS + 1e-9);
                (at, gK, gS) = Linearize(discs, forward, wavelength, nextK, nextS, common);
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

        return common is null ? at : at.TakenApart(discs, forward, wavelength, common);
    }

    /// <summary>The fit with given coefficients, which are not moved.</summary>
    public static WavelengthFit At(
        DiscSet discs, IDiscForwardModel forward, int wavelength, double k, double s, double[]? common)
    {
        (WavelengthFit at, _, _) = Linearize(discs, forward, wavelength, k, s, common);
        return common is null ? at : at.TakenApart(discs, forward, wavelength, common);
    }

    public static double ChiSquareAt(
        DiscSet discs, IDiscForwardModel forward, int wavelength, double k, double s, double[]? common = null)
    {
        double chi = 0, along = 0, size = 1;
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double weight = Weight(discs, r, common), move = weight * (common?[r] ?? 0);
            double residual = (forward.Value(r, wavelength, k, s) - discs.Readings[r].Values[wavelength]) * weight;
            chi += residual * residual;
            along += move * residual;
            size += move * move;
        }

        return chi - (along * along / size);
    }

    /// <summary>
    /// Residuals, measured less fitted, in units of what is left of their uncertainty after the fit of K, S and the
    /// common error, which is a third parameter known as 0 ± 1.
    /// </summary>
    public IEnumerable<(int Reading, double Residual)> StudentizedResiduals(
        DiscSet discs, IDiscForwardModel forward, int wavelength, double[]? common = null)
    {
        double along = 0, size = 1, alongK = 0, alongS = 0;
        for (int r = 0; common is not null && r < discs.Readings.Count; r++)
        {
            double weight = Weight(discs, r, common), move = weight * common[r];
            (double value, double dK, double dS) = forward.Evaluate(r, wavelength, K, S);
            along += move * weight * (discs.Readings[r].Values[wavelength] - value);
            (alongK, alongS) = (alongK + (move * weight * dK), alongS + (move * weight * dS));
            size += move * move;
        }

        double varianceK = VarianceK + (CommonK * CommonK), varianceS = VarianceS + (CommonS * CommonS);
        double covariance = Covariance + (CommonK * CommonS);
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double u = 1 / Weight(discs, r, common), move = common?[r] ?? 0;
            (double value, double dK, double dS) = forward.Evaluate(r, wavelength, K, S);
            (dK, dS) = (dK - (move * alongK / size), dS - (move * alongS / size));
            double explained = (dK * dK * varianceK) + (dS * dS * varianceS) + (2 * dK * dS * covariance)
                + (move * move / size);
            double left = 1 - (explained / (u * u));
            yield return (r, left > 1e-6
                ? (discs.Readings[r].Values[wavelength] - value - (along / size * move)) / (u * Math.Sqrt(left))
                : 0);
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

    // The inverse of the weighted normal matrix is the covariance of all errors together; what of it is noise, and what
    // the common error does, follow from how each reading moves the solution.
    private WavelengthFit TakenApart(DiscSet discs, IDiscForwardModel forward, int wavelength, double[] common)
    {
        int n = discs.Readings.Count;
        double size = 1, alongK = 0, alongS = 0;
        double[] weights = new double[n], slopesK = new double[n], slopesS = new double[n];
        for (int r = 0; r < n; r++)
        {
            double weight = weights[r] = Weight(discs, r, common), move = weight * common[r];
            (_, slopesK[r], slopesS[r]) = forward.Evaluate(r, wavelength, K, S);
            size += move * move;
            alongK += move * slopesK[r] * weight;
            alongS += move * slopesS[r] * weight;
        }

        double kk = 0, ss = 0, ks = 0, commonK = 0, commonS = 0;
        for (int r = 0; r < n; r++)
        {
            double weight = weights[r], move = weight * common[r];
            double towardsK = (slopesK[r] * weight) - (move * alongK / size);
            double towardsS = (slopesS[r] * weight) - (move * alongS / size);
            double byK = (VarianceK * towardsK) + (Covariance * towardsS);
            double byS = (Covariance * towardsK) + (VarianceS * towardsS);
            (kk, ss, ks) = (kk + (byK * byK), ss + (byS * byS), ks + (byK * byS));
            (commonK, commonS) = (commonK + (byK * move), commonS + (byS * move));
        }

        double determinant = (kk * ss) - (ks * ks);
        return determinant > 0 && Guard.IsFinite(commonK) && Guard.IsFinite(commonS)
            ? this with
            {
                NormalKK = ss / determinant, NormalSS = kk / determinant, NormalKS = -ks / determinant,
                CommonK = commonK, CommonS = commonS,
            }
            : this;
    }

    private static double Weight(DiscSet discs, int reading, double[]? common) =>
        1 / Math.Max(
            discs.Readings[reading].StandardUncertainty, common is null ? 0 : LeastNoise * Math.Abs(common[reading]));

    private static (WavelengthFit Fit, double GradientK, double GradientS) Linearize(
        DiscSet discs, IDiscForwardModel forward, int wavelength, double k, double s, double[]? common)
    {
        double chi = 0, kk = 0, ss = 0, ks = 0, gK = 0, gS = 0, size = 1, along = 0, alongK = 0, alongS = 0;
        for (int r = 0; r < discs.Readings.Count; r++)
        {
            double weight = Weight(discs, r, common), move = weight * (common?[r] ?? 0);
            (double value, double dK, double dS) = forward.Evaluate(r, wavelength, k, s);
            double residual = (value - discs.Readings[r].Values[wavelength]) * weight;
            (dK, dS) = (dK * weight, dS * weight);
            chi += residual * residual;
            (kk, ss, ks) = (kk + (dK * dK), ss + (dS * dS), ks + (dK * dS));
            (gK, gS) = (gK + (dK * residual), gS + (dS * residual));
            (size, along) = (size + (move * move), along + (move * residual));
            (alongK, alongS) = (alongK + (move * dK), alongS + (move * dS));
        }

        return (
            new WavelengthFit(
                k, s, chi - (along * along / size), kk - (alongK * alongK / size), ss - (alongS * alongS / size),
                ks - (alongK * alongS / size)),
            gK - (alongK * along / size),
            gS - (alongS * along / size));
    }
}
