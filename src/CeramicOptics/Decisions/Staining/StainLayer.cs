using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Staining;

/// <summary>The thin layer that carries the stain.</summary>
/// <remarks>Immutable.</remarks>
public sealed record StainLayer
{
    /// <summary>A stain layer.</summary>
    /// <param name="carrier">The fired layer without pigment, such as glaze.</param>
    /// <param name="appliedThicknessMm">Thickness as applied, before firing, 0.001 to 1 mm.</param>
    /// <param name="firingShrinkage">Share of the thickness that is lost in firing, 0 to 0.9; the pigment stays and
    /// becomes denser by as much.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range or NaN.</exception>
    public StainLayer(Material carrier, double appliedThicknessMm, double firingShrinkage = 0)
    {
        Carrier = Guard.NotNull(carrier);
        AppliedThicknessMm = Guard.InRange(appliedThicknessMm, 0.001, 1, "mm");
        FiringShrinkage = Guard.InRange(firingShrinkage, 0, 0.9, "");
    }

    /// <summary>The fired layer without pigment.</summary>
    public Material Carrier { get; }

    /// <summary>Thickness as applied, mm.</summary>
    public double AppliedThicknessMm { get; }

    /// <summary>Share of the thickness that is lost in firing.</summary>
    internal double FiringShrinkage { get; }

    /// <summary>Thickness after firing, mm.</summary>
    internal double FiredThicknessMm => AppliedThicknessMm * (1 - FiringShrinkage);

    /// <summary>How much denser the pigment is after firing than as applied, 1 to 10.</summary>
    internal double Density => 1 / (1 - FiringShrinkage);

    /// <summary>The fired layer with pigments in it.</summary>
    /// <param name="parts">Pigments with their loads.</param>
    /// <remarks>
    /// Its uncertainty is that of carrier and pigments together where all of them state theirs; errors of scale that
    /// are independent are joined into their largest, an upper bound.
    /// </remarks>
    /// <exception cref="ArgumentException">A pigment of another grid or model.</exception>
    internal Layer Fired(IEnumerable<StainPart> parts)
    {
        double[] k = Carrier.Absorption.Values.ToArray(), s = Carrier.Scattering.Values.ToArray();
        IReadOnlyList<StainPart> mixed = Guard.Copy(parts);
        foreach (StainPart part in mixed)
        {
            RequireServes(part.Pigment);
            for (int i = 0; i < k.Length; i++)
            {
                k[i] += part.Load * Density * part.Pigment.Absorption[i];
                s[i] += part.Load * Density * part.Pigment.Scattering[i];
            }
        }

        return Fired(
            string.Join(" + ", [Carrier.Name, .. mixed.Select(part => part.Pigment.Name)]), k, s,
            UncertaintyWith(mixed));
    }

    /// <summary>The fired layer with other coefficients.</summary>
    internal Layer Fired(string name, double[] k, double[] s, CoefficientUncertainty? uncertainty = null) => new(
        new Material(name, Carrier.Model, new AbsorptionSpectrum(Carrier.Grid, k),
            new ScatteringSpectrum(Carrier.Grid, s), Carrier.RefractiveIndex, uncertainty), FiredThicknessMm);

    internal void RequireServes(Pigment pigment)
    {
        Carrier.Grid.RequireSame(pigment.Absorption.Grid, $"Pigment '{pigment}'");
        if (!Carrier.Model.IsSameTheoryAs(pigment.Model))
        {
            throw new ArgumentException(
                $"'{Carrier.Name}' has K and S of {Carrier.Model.Name} but pigment '{pigment}' those of "
                    + $"{pigment.Model.Name}; one layer needs one model.");
        }
    }

    private CoefficientUncertainty? UncertaintyWith(IReadOnlyList<StainPart> parts)
    {
        if (Carrier.Uncertainty is not { } carrier || parts.Any(part => part.Pigment.Uncertainty is null))
        {
            return null;
        }

        int n = Carrier.Grid.Count;
        double[] k = new double[n], s = new double[n], correlation = new double[n], commonK = new double[n],
            commonS = new double[n];
        for (int i = 0; i < n; i++)
        {
            double kk = 0, ss = 0, ks = 0;
            Add(carrier, 1);
            foreach (StainPart part in parts)
            {
                Add(part.Pigment.Uncertainty!, part.Load * Density);
            }

            (k[i], s[i]) = (Math.Sqrt(kk), Math.Sqrt(ss));
            correlation[i] = k[i] * s[i] > 0 ? Math.Min(1, Math.Max(-1, ks / (k[i] * s[i]))) : 0;

            void Add(CoefficientUncertainty u, double times)
            {
                double uK = times * u.AbsorptionPerMm[i], uS = times * u.ScatteringPerMm[i];
                (kk, ss, ks) = (kk + (uK * uK), ss + (uS * uS), ks + (u.Correlation[i] * uK * uS));
                commonK[i] += times * u.CommonAbsorptionPerMm[i];
                commonS[i] += times * u.CommonScatteringPerMm[i];
            }
        }

        return new CoefficientUncertainty(
            k, s, correlation,
            parts.Where(part => part.Load > 0)
                .Aggregate(carrier.RelativeScale, (most, part) =>
                    Math.Max(most, part.Pigment.Uncertainty!.RelativeScale)),
            commonK, commonS);
    }
}
