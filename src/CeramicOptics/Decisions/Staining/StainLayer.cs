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
    public double FiringShrinkage { get; }

    /// <summary>Thickness after firing, mm.</summary>
    public double FiredThicknessMm => AppliedThicknessMm * (1 - FiringShrinkage);

    /// <summary>How much denser the pigment is after firing than as applied, 1 to 10.</summary>
    internal double Density => 1 / (1 - FiringShrinkage);

    /// <summary>The fired layer with pigments in it.</summary>
    /// <param name="parts">Pigments with their loads.</param>
    /// <exception cref="ArgumentException">A pigment of another grid or model.</exception>
    public Layer Fired(IEnumerable<StainPart> parts)
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

        return Fired(string.Join(" + ", [Carrier.Name, .. mixed.Select(part => part.Pigment.Name)]), k, s);
    }

    /// <summary>The fired layer with other coefficients.</summary>
    internal Layer Fired(string name, double[] k, double[] s) => new(
        new Material(name, Carrier.Model, new AbsorptionSpectrum(Carrier.Grid, k),
            new ScatteringSpectrum(Carrier.Grid, s), Carrier.RefractiveIndex), FiredThicknessMm);

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
}
