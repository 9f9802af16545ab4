using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>A measured oil paint: its readings over the black and the white part of a card, and its recipe.</summary>
internal sealed class Paint
{
    // Oil and card coating; common practice, no source.
    private const double Index = 1.5;

    // Thickness is not stated at the source, so K and S are for the layer as it is: a layer of "1".
    private const double LayerMm = 1;

    // The least noise that readings over white and over black of one opaque paint show.
    private const double Noise = 0.003;

    private readonly Dictionary<string, ReflectanceSpectrum> _readings;

    private Paint(string name, Dictionary<string, double> shares, Dictionary<string, ReflectanceSpectrum> readings) =>
        (Name, Shares, _readings) = (name, shares, readings);

    public string Name { get; }

    /// <summary>Components by their share of the mass, 0 to 1, without those of share 0.</summary>
    public IReadOnlyDictionary<string, double> Shares { get; }

    public ReflectanceSpectrum OverBlack => _readings["over_black"];

    public ReflectanceSpectrum OverWhite => _readings["over_white"];

    /// <summary>Mean over wavelength of the reading over white less that over black.</summary>
    public double Contrast =>
        Enumerable.Range(0, OverWhite.Grid.Count).Average(i => OverWhite[i] - OverBlack[i]);

    /// <summary>Share of the mass; 0 for what is not in the paint.</summary>
    public double ShareOf(string component) => Shares.GetValueOrDefault(component);

    public DiscSet Discs(MeasurementGeometry geometry) => DiscSet.OverBlackAndWhite(
        Name, Index, LayerMm, OverBlack, OverWhite, Card("bare_black", geometry), Card("bare_white", geometry),
        geometry,
        ReadingArea.Large, Noise, thicknessStandardUncertaintyMm: 0);

    /// <summary>A layer of other constants on this paint's own card.</summary>
    public LayerStack On(string card, Material material, double times, MeasurementGeometry geometry) =>
        new([new Layer(material, times * LayerMm)], Card(card, geometry).Substrate);

    public static IReadOnlyList<Paint> Read(string path)
    {
        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 10);
        return [.. File.ReadLines(path)
            .Where(line => line.Length > 0 && line[0] != '#')
            .Skip(1)
            .Select(line => line.Split(','))
            .GroupBy(cells => cells[0])
            .Select(rows =>
            {
                string[] recipe = rows.First()[1].Split('|');
                Dictionary<string, double> shares = recipe[0].Split('-')
                    .Zip(recipe[1].Split('-'), (component, percent) => (component, percent))
                    .Select(item => (item.component, Share: double.Parse(item.percent) / 100))
                    .Where(item => item.Share > 0)
                    .ToDictionary(item => item.component, item => item.Share);
                return new Paint(rows.Key, shares, rows.ToDictionary(
                    cells => cells[2],
                    cells => new ReflectanceSpectrum(
                        grid, [.. cells.Skip(3).Select(cell => double.Parse(cell) / 100)])));
            })];
    }

    private Backing Card(string part, MeasurementGeometry geometry) => new(
        Substrate.FromMeasuredReflectance($"{part} of {Name}", _readings[part], Index, geometry), coupling: null);
}
