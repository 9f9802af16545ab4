using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>Layers of known thickness on a substrate, seen from air: for example glaze, ceramic and cement over a stump.</summary>
/// <remarks>
/// Two-flux theory with a diffuse Fresnel boundary at every jump of refractive index, also between layers and above the substrate.
/// Immutable and safe to share.
/// </remarks>
public sealed class LayerStack
{
    /// <summary>A stack.</summary>
    /// <param name="layers">At least one layer, from the surface down; all materials on one grid.</param>
    /// <param name="substrate">What lies under the lowest layer; data on the same grid, or ideal.</param>
    /// <param name="coupling">A clear film between lowest layer and substrate, such as air under an unbonded crown; null for optical contact.</param>
    /// <exception cref="ArgumentException">No layer, or grids that differ; shows both grids.</exception>
    public LayerStack(IEnumerable<Layer> layers, Substrate substrate, CouplingMedium? coupling = null)
    {
        Layers = Guard.Copy(layers, minimumCount: 1);
        Substrate = Guard.NotNull(substrate);
        Coupling = coupling;
        Grid = Layers[0].Material.Grid;
        foreach (Layer layer in Layers)
        {
            Grid.RequireSame(layer.Material.Grid, $"'{layer.Material.Name}'");
        }

        if (substrate.Grid is not null)
        {
            Grid.RequireSame(substrate.Grid, $"'{substrate.Name}'");
        }
    }

    /// <summary>The layers, from the surface down.</summary>
    public IReadOnlyList<Layer> Layers { get; }

    /// <summary>What lies under the lowest layer.</summary>
    public Substrate Substrate { get; }

    /// <summary>The clear film between lowest layer and substrate; null for optical contact.</summary>
    public CouplingMedium? Coupling { get; }

    /// <summary>The wavelengths of all data.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Reflectance factor as an instrument reads it.</summary>
    /// <param name="geometry">Measurement geometry.</param>
    public ReflectanceSpectrum Reflectance(MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded) =>
        Sweep(0, geometry).Reflectance(Layers[0].ThicknessMm);

    /// <summary>The stack made ready to evaluate many thicknesses of one layer.</summary>
    /// <param name="variableLayer">Position of that layer, 0 at the surface.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer.</exception>
    public ThicknessSweep Sweep(int variableLayer, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded)
    {
        Guard.InRange(variableLayer, 0, Layers.Count - 1);
        Guard.Defined(geometry);
        int n = Grid.Count;
        double[] backing = new double[n];
        LayerOptics[] cover = new LayerOptics[n];
        SurfaceCorrection[] surface = new SurfaceCorrection[n];
        BoundaryMemo boundaries = new();
        for (int i = 0; i < n; i++)
        {
            backing[i] = BackingOf(variableLayer, i, boundaries);
            cover[i] = CoverOf(variableLayer, i, boundaries);
            surface[i] = boundaries.Surface(geometry, IndexOf(0, i));
        }

        return new ThicknessSweep(Layers[variableLayer].Material, backing, cover, surface);
    }

    /// <summary>The same stack with another thickness of one layer.</summary>
    /// <param name="layer">Position of the layer, 0 at the surface.</param>
    /// <param name="thicknessMm">New thickness, 0 to 100 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer, or thickness outside its range.</exception>
    public LayerStack WithThickness(int layer, double thicknessMm)
    {
        Guard.InRange(layer, 0, Layers.Count - 1);
        return new LayerStack(
            Layers.Select((item, i) => i == layer ? new Layer(item.Material, thicknessMm) : item), Substrate, Coupling);
    }

    /// <summary>The same layers over another substrate.</summary>
    /// <param name="substrate">The substrate.</param>
    public LayerStack WithSubstrate(Substrate substrate) => new(Layers, substrate, Coupling);

    /// <summary>The same layers and substrate with another film between, or none.</summary>
    /// <param name="coupling">The film; null for optical contact.</param>
    public LayerStack WithCoupling(CouplingMedium? coupling) => new(Layers, Substrate, coupling);

    private double IndexOf(int layer, int wavelength) => Layers[layer].Material.RefractiveIndex.At(Grid[wavelength]);

    // Reflectance seen from inside a layer at its lower face: substrate, film and lower layers, from the bottom up.
    private double BackingOf(int layer, int wavelength, BoundaryMemo boundaries)
    {
        double reflectance = Substrate.SeenFrom(IndexOf(Layers.Count - 1, wavelength), Coupling, Grid[wavelength], wavelength, boundaries);
        for (int j = Layers.Count - 1; j > layer; j--)
        {
            Material material = Layers[j].Material;
            double top = TwoFlux.ReflectanceUnchecked(
                material.Absorption[wavelength], material.Scattering[wavelength], Layers[j].ThicknessMm, reflectance);
            reflectance = boundaries.Diffuse(IndexOf(j - 1, wavelength), IndexOf(j, wavelength)).OnBacking(top);
        }

        return reflectance;
    }

    // Everything above a layer except the surface to air: upper layers and the boundaries below each of them.
    private LayerOptics CoverOf(int layer, int wavelength, BoundaryMemo boundaries)
    {
        LayerOptics cover = LayerOptics.Clear;
        for (int j = 0; j < layer; j++)
        {
            Material material = Layers[j].Material;
            cover = cover
                .Over(TwoFlux.Slab(material.Absorption[wavelength], material.Scattering[wavelength], Layers[j].ThicknessMm))
                .Over(boundaries.Diffuse(IndexOf(j, wavelength), IndexOf(j + 1, wavelength)));
        }

        return cover;
    }
}
