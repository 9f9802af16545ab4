using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Selection;

/// <summary>The thin layer that carries the stain, and what may be mixed into it.</summary>
public sealed record StainLayer
{
    /// <summary>A stain layer.</summary>
    /// <param name="carrier">The fired layer without pigment, such as glaze.</param>
    /// <param name="appliedThicknessMm">Thickness as applied, before firing, 0.001 to 1 mm.</param>
    /// <param name="firingShrinkage">Share of the thickness that is lost in firing, 0 to 0.9; the pigment stays and becomes denser by as much.</param>
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

    /// <summary>Largest load of one pigment, above 0 to 1e6; 1 unless told otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double MaximumLoad { get; init => field = Guard.InRange(value, 1e-9, 1e6, "", nameof(MaximumLoad)); } = 1;

    /// <summary>Largest number of pigments in one mixture, 1 to 4; 3 unless told otherwise.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    public int MaximumPigments { get; init => field = Guard.InRange(value, 1, 4, nameof(MaximumPigments)); } = 3;

    /// <summary>The fired layer with pigments in it.</summary>
    /// <param name="parts">Pigments with their loads, each load 0 to 1e6.</param>
    /// <exception cref="ArgumentException">Grids differ.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A load is outside its range or NaN.</exception>
    public Layer Fired(IEnumerable<StainPart> parts)
    {
        WavelengthGrid grid = Carrier.Grid;
        double[] k = Carrier.Absorption.Values.ToArray(), s = Carrier.Scattering.Values.ToArray();
        double density = 1 / (1 - FiringShrinkage);
        IReadOnlyList<StainPart> mixed = Guard.Copy(parts);
        foreach (StainPart part in mixed)
        {
            grid.RequireSame(part.Pigment.Absorption.Grid, $"Pigment '{part.Pigment}'");
            Guard.InRange(part.Load, 0, 1e6, "", $"load of '{part.Pigment}'");
            for (int i = 0; i < k.Length; i++)
            {
                k[i] += part.Load * density * part.Pigment.Absorption[i];
                s[i] += part.Load * density * part.Pigment.Scattering[i];
            }
        }

        string name = mixed.Count == 0 ? Carrier.Name : $"{Carrier.Name} with {string.Join(", ", mixed)}";
        return new Layer(new Material(name, new AbsorptionSpectrum(grid, k), new ScatteringSpectrum(grid, s), Carrier.RefractiveIndex), FiredThicknessMm);
    }
}
