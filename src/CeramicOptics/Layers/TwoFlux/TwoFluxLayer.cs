namespace CeramicOptics.Layers.TwoFlux;

/// <summary>Kubelka-Munk two-flux formulas for one homogeneous layer, without surfaces, at one wavelength.</summary>
/// <remarks>
/// K and S in 1/mm, thickness t in mm, reflectances 0 to 1 inside the medium. With x = t sqrt(K (K + 2 S)), the
/// formulas are written in A = sinh(x)/x and C = cosh(x), both times exp(-x), so that K = 0, S = 0, t = 0 and any x are
/// plain values of one expression. Relative error of R is below 1e-12. Good for optically thick, weakly absorbing
/// layers under diffuse light; for a thin clear layer the light inside is not diffuse and the result can be off by 0.2
/// (reduced optical thickness below 0.3). Source: Kubelka, Munk 1931, Z. Tech. Phys. 12:593-601; Kubelka 1948, J. Opt.
/// Soc. Am. 38:448-457.
/// </remarks>
public static class TwoFluxLayer
{
    private const double MaximumPerMm = 1e6, MaximumThicknessMm = 1e4;

    /// <summary>
    /// Reflectance and transmittance of the free layer (over a perfectly black backing of the same index).
    /// </summary>
    /// <param name="k">K, 0 to 1e6 1/mm; not checked.</param>
    /// <param name="s">S, 0 to 1e6 1/mm; not checked.</param>
    /// <param name="t">Thickness, 0 to 1e4 mm; not checked.</param>
    /// <returns>R0 on both sides, T both ways.</returns>
    internal static LayerOptics Slab(double k, double s, double t)
    {
        Terms terms = new(k, s, t);
        double reflectance = terms.ScatteringTerm / terms.Denominator;
        double transmittance = terms.Decay / terms.Denominator;
        return new LayerOptics(reflectance, reflectance, transmittance, transmittance);
    }

    /// <summary>Reflectance R of the layer on a backing: R0 + T² Rg / (1 - R0 Rg).</summary>
    /// <param name="absorptionPerMm">K, 0 to 1e6 1/mm.</param>
    /// <param name="scatteringPerMm">S, 0 to 1e6 1/mm.</param>
    /// <param name="thicknessMm">t, 0 to 1e4 mm.</param>
    /// <param name="backing">Rg, reflectance of the backing seen from inside the layer, 0 to 1.</param>
    /// <returns>R, 0 to 1; rising with <paramref name="backing"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public static double Reflectance(double absorptionPerMm, double scatteringPerMm, double thicknessMm, double backing)
    {
        Check(absorptionPerMm, scatteringPerMm, thicknessMm);
        Guard.InRange(backing, 0, 1, "");
        return OnBacking(new Terms(absorptionPerMm, scatteringPerMm, thicknessMm), backing);
    }

    /// <summary>Reflectance of an infinitely thick layer, R-infinity = S / (K + S + sqrt(K (K + 2 S))).</summary>
    /// <param name="absorptionPerMm">K, 0 to 1e6 1/mm.</param>
    /// <param name="scatteringPerMm">S, 0 to 1e6 1/mm.</param>
    /// <returns>0 to 1; 0 for a layer that neither absorbs nor scatters.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    internal static double InfiniteReflectance(double absorptionPerMm, double scatteringPerMm)
    {
        Check(absorptionPerMm, scatteringPerMm, 0);
        return scatteringPerMm == 0
            ? 0
            : scatteringPerMm / (absorptionPerMm + scatteringPerMm + DecayRate(absorptionPerMm, scatteringPerMm));
    }

    /// <summary>The layer's reflectance on a backing with its four partial derivatives, in closed form.</summary>
    /// <param name="absorptionPerMm">K, 0 to 1e6 1/mm.</param>
    /// <param name="scatteringPerMm">S, 0 to 1e6 1/mm.</param>
    /// <param name="thicknessMm">t, 0 to 1e4 mm.</param>
    /// <param name="backing">Rg, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    internal static LayerSensitivity Sensitivity(
        double absorptionPerMm, double scatteringPerMm, double thicknessMm, double backing)
    {
        Check(absorptionPerMm, scatteringPerMm, thicknessMm);
        Guard.InRange(backing, 0, 1, "");
        (double k, double s, double g) = (absorptionPerMm, scatteringPerMm, backing);
        Terms terms = new(k, s, thicknessMm);
        double r = OnBacking(terms, g);

        // Kubelka's differential equation gives dR/dt without differences of large numbers.
        double byThickness = s - (2 * (k + s) * r) + (s * r * r);
        double denominator = terms.BackedDenominator(g);
        double byBacking = terms.Decay / denominator * (terms.Decay / denominator);

        // R = N / D, N = g C + (S - g (K + S)) A t, D = C + (K + S - S g) A t; A t and C depend on q = K (K + 2 S) and
        // t alone: dC/dq = t (A t) / 2 and d(A t)/dq = t^3 B, B = (cosh x - sinh x / x) / (2 x^2). Both sides carry
        // exp(-x), which cancels.
        double at = terms.Shc * thicknessMm, byQ = thicknessMm * thicknessMm * thicknessMm * terms.ShcSlope;
        double cByQ = thicknessMm * at / 2;
        double qByK = 2 * (k + s), qByS = 2 * k;
        double nByQ = (g * cByQ) + ((s - (g * (k + s))) * byQ);
        double dByQ = cByQ + ((k + s - (s * g)) * byQ);
        double common = (nByQ - (r * dByQ)) / denominator;
        double byAbsorption = (common * qByK) - ((g + r) * at / denominator);
        double byScattering = (common * qByS) + ((1 - g) * (1 - r) * at / denominator);
        return new LayerSensitivity(r, byThickness, byAbsorption, byScattering, byBacking);
    }

    /// <summary>Transmittance of the free layer with its derivatives by K and S.</summary>
    internal static (double Value, double ByAbsorptionMm, double ByScatteringMm) TransmittanceSensitivity(
        double k, double s, double t)
    {
        // T = 1/D with D as in Sensitivity for Rg = 0; D carries exp(-x), so T = exp(-x)/D.
        Terms terms = new(k, s, t);
        double at = terms.Shc * t, byQ = (t * at / 2) + ((k + s) * t * t * t * terms.ShcSlope);
        double factor = -terms.Decay / (terms.Denominator * terms.Denominator);
        return (terms.Decay / terms.Denominator, factor * ((byQ * 2 * (k + s)) + at), factor * ((byQ * 2 * k) + at));
    }

    private static double OnBacking(Terms terms, double g)
    {
        double denominator = terms.Denominator;

        // 1 - R0 Rg as (1 - Rg) + Rg (1 - R0): no difference of near-equal numbers even for a white layer on a white
        // backing.
        double oneMinusProduct = (1 - g) + (g * terms.LossTerm / denominator);
        double transmittance = terms.Decay / denominator;
        double r = (terms.ScatteringTerm / denominator) + (transmittance * transmittance * g / oneMinusProduct);

        // A white layer on white can round to an ulp above 1.
        return Math.Min(r, 1);
    }

    internal static double DecayRate(double k, double s) => Math.Sqrt(k) * Math.Sqrt(k + (2 * s));

    private static void Check(double absorptionPerMm, double scatteringPerMm, double thicknessMm)
    {
        Guard.InRange(absorptionPerMm, 0, MaximumPerMm, "1/mm");
        Guard.InRange(scatteringPerMm, 0, MaximumPerMm, "1/mm");
        Guard.InRange(thicknessMm, 0, MaximumThicknessMm, "mm");
    }

    // The shared parts of all formulas; every term carries the factor exp(-x).
    private readonly struct Terms
    {
        private readonly double _sum, _cosh, _scattering;

        public Terms(double k, double s, double t)
        {
            double x = DecayRate(k, s) * t;
            double x2 = x * x;
            Decay = Math.Exp(-x);
            if (x < 1)
            {
                // sinh(x)/x, cosh(x) and (cosh x - sinh x / x) / (2 x^2) by their power series, to 1e-17 at x = 1.
                Shc = Decay * Series(x2, 6, 20, 42, 72, 110, 156, 210, 272);
                _cosh = Decay * Series(x2, 2, 12, 30, 56, 90, 132, 182, 240);
                ShcSlope = Decay / 6 * Series(x2, 10, 28, 54, 88, 130, 180, 238);
            }
            else
            {
                double decay2 = Decay * Decay;
                Shc = (1 - decay2) / (2 * x);
                _cosh = (1 + decay2) / 2;
                ShcSlope = (_cosh - Shc) / (2 * x2);
            }

            _sum = (k + s) * t * Shc;
            _scattering = s * t * Shc;
            LossTerm = (k * t * Shc) + _cosh;
        }

        public double Decay { get; }

        public double Shc { get; }

        public double ShcSlope { get; }

        public double ScatteringTerm => _scattering;

        // Denominator minus scattering term, that is (1 - R0) times the denominator.
        public double LossTerm { get; }

        public double Denominator => _sum + _cosh;

        public double BackedDenominator(double g) => LossTerm + ((1 - g) * _scattering);

        /// <summary>1 + y/d1 (1 + y/d2 (1 + ...)).</summary>
        private static double Series(double y, params ReadOnlySpan<double> divisors)
        {
            double sum = 1;
            for (int i = divisors.Length - 1; i >= 0; i--)
            {
                sum = 1 + (y / divisors[i] * sum);
            }

            return sum;
        }
    }
}
