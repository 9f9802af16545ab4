using CeramicOptics.Layers.Lateral;
using CeramicOptics.Spectra;

namespace CeramicOptics.Layers;

/// <summary>
/// Layers of known thickness on a substrate, seen from air: for example glaze, ceramic and cement over a stump.
/// </summary>
/// <remarks>
/// A Fresnel boundary stands at every jump of refractive index, also between layers and above the substrate. All
/// materials share one model, by which the stack is evaluated. Immutable and safe to share.
/// </remarks>
public sealed class LayerStack
{
    /// <summary>A stack.</summary>
    /// <param name="layers">
    /// At least one layer, from the surface down; all materials on one grid and of one model.
    /// </param>
    /// <param name="substrate">What lies under the lowest layer; data on the same grid, or ideal.</param>
    /// <param name="coupling">
    /// A clear film between lowest layer and substrate, such as air under an unbonded crown; null for optical contact.
    /// </param>
    /// <exception cref="ArgumentException">
    /// No layer; grids that differ (shows both); materials of different models (names both and the way out).
    /// </exception>
    public LayerStack(IEnumerable<Layer> layers, Substrate substrate, CouplingMedium? coupling = null)
    {
        Layers = Guard.Copy(layers, minimumCount: 1);
        Substrate = Guard.NotNull(substrate);
        Coupling = coupling;
        Material first = Layers[0].Material;
        Grid = first.Grid;
        Model = first.Model;
        foreach (Layer layer in Layers)
        {
            Grid.RequireSame(layer.Material.Grid, $"'{layer.Material.Name}'");
            first.RequireSameModel(layer.Material);
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
    internal CouplingMedium? Coupling { get; }

    /// <summary>The wavelengths of all data.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The model of all materials.</summary>
    internal IOpticalModel Model { get; }

    /// <summary>Reflectance factor as an instrument reads it, evaluated directly.</summary>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="area">
    /// The area that the instrument illuminates and measures, so that light that spreads sideways counts; large where
    /// it is null or not stated.
    /// </param>
    /// <remarks>
    /// Through a window good to 0.002 in R where the anisotropy of scattering is that of the materials' model
    /// (radiative transfer); with two-flux theory to about 0.01, and worse for reduced scattering below 5 per mm
    /// (docs/lateral.md).
    /// </remarks>
    public ReflectanceSpectrum Reflectance(
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea? area = null) =>
        area is { HasWindow: true }
            ? LateralReflectance.Read(this, Guard.Defined(geometry), area)
            : new(Grid, Reflectances(Model, geometry));

    /// <summary>
    /// Share of the instrument's light that reaches the substrate, evaluated directly; light that the substrate returns
    /// is not counted again.
    /// </summary>
    /// <param name="geometry">Gives the light: diffuse, or at 0 or 45 degrees.</param>
    /// <returns>0 to 1 at each wavelength.</returns>
    public TransmittanceSpectrum Transmittance(
        MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded) =>
        new(Grid, Transmittances(Model, geometry));

    /// <summary>
    /// Total transmittance of the layers alone, free in air: light at normal incidence, all that leaves the lower face
    /// is collected (0°:d), as a sphere reads it. Substrate and coupling of the stack do not count.
    /// </summary>
    /// <returns>0 to 1 at each wavelength.</returns>
    /// <remarks>
    /// By reciprocity also that for diffuse light seen along the normal (d:0°). In two-flux theory the light is diffuse
    /// as soon as it is inside. As <c>DiscReading.Transmittance</c>.
    /// </remarks>
    public TransmittanceSpectrum FreeTransmittance() => new(Grid, FreeTransmittances(Model));

    /// <summary>Reflectance factor with one layer infinitely thick, so that nothing below it matters.</summary>
    /// <param name="layer">Position of the layer, 0 at the surface.</param>
    /// <param name="geometry">Measurement geometry.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such layer.</exception>
    /// <exception cref="ArgumentException">
    /// The layer neither absorbs nor scatters at some wavelength; names it.
    /// </exception>
    public ReflectanceSpectrum InfiniteReflectance(
        int layer, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded)
    {
        Guard.InRange(layer, 0, Layers.Count - 1);
        return new ReflectanceSpectrum(
            Grid, Each(Model, geometry, (sampler, i, layersMm) => Math.Max(0, sampler.InfiniteAt(i, layer, layersMm))));
    }

    /// <summary>
    /// The stack made ready to evaluate any thickness of its varied layers over any substrate of the same refractive
    /// index.
    /// </summary>
    /// <param name="geometry">Measurement geometry.</param>
    /// <param name="varied">One or two thicknesses that vary; those of the stack itself do not matter there.</param>
    /// <param name="cancellation">Stops the work between two wavelengths.</param>
    /// <exception cref="ArgumentException">
    /// Not one or two thicknesses, or a layer that is not in the stack or varies twice.
    /// </exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public StackResponse Compile(
        MeasurementGeometry geometry, IReadOnlyList<VariableThickness> varied,
        CancellationToken cancellation = default) =>
        StackResponse.Compile(this, geometry, varied, cancellation);

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

    internal double IndexOf(int layer, int wavelength) => Layers[layer].Material.RefractiveIndex.At(Grid[wavelength]);

    /// <summary>Indices of all layers, of what lies between the lowest layer and the body, and of the body.</summary>
    internal (double[] Layers, double Film, double Body) IndicesAt(int wavelength)
    {
        double[] layers = [.. Layers.Select((_, layer) => IndexOf(layer, wavelength))];
        double film = Coupling?.RefractiveIndex.At(Grid[wavelength]) ?? layers[layers.Length - 1];
        return (layers, film, Substrate.BodyUnder(film, wavelength).Index);
    }

    /// <summary>Reflectance factors by another form of the same theory.</summary>
    internal double[] Reflectances(IOpticalModel model, MeasurementGeometry geometry) =>
        Each(
            model, geometry,
            (sampler, i, layersMm) => Math.Max(0, sampler.At(i, layersMm).Over(Substrate.InternalReflectanceAt(i))));

    /// <summary>Total transmittances of the layers alone by another form of the same theory.</summary>
    internal double[] FreeTransmittances(IOpticalModel model) => new LayerStack(
        Layers, Substrate.Black, CouplingMedium.Air).Transmittances(model, MeasurementGeometry.ZeroFortyFive);

    private double[] Transmittances(IOpticalModel model, MeasurementGeometry geometry) => Each(
        model, geometry, (sampler, i, layersMm) => Math.Min(1, Math.Max(0, sampler.At(i, layersMm).Passing)));

    private double[] Each(
        IOpticalModel model, MeasurementGeometry geometry, Func<StackSampler, int, double[], double> value)
    {
        StackSampler sampler = model.SamplerFor(this, Guard.Defined(geometry));
        double[] layersMm = [.. Layers.Select(layer => layer.ThicknessMm)], values = new double[Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = value(sampler, i, layersMm);
        }

        return values;
    }
}
