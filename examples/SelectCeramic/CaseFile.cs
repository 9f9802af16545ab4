using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Selection;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The case as the user writes it; docs/case-file.md describes the keys.</summary>
internal sealed class CaseFile
{
    private readonly CaseJson _json;
    private readonly IReadOnlyList<Zone> _zones;

    private CaseFile(CaseJson json, MaterialCatalog catalog, string folder)
    {
        _json = json;
        WavelengthGrid grid = catalog.Entries[0].Material.Grid;
        Observer observer = json.Observer switch
        {
            "2" => Observer.Cie1931TwoDegree,
            "10" => Observer.Cie1964TenDegree,
            _ => throw new ArgumentException($"observer must be \"2\" or \"10\" but is \"{json.Observer}\"."),
        };
        Colorimeters = [.. json.Illuminants.Select(name => new Colorimeter(observer, Illuminant.Named(name)))];
        Criterion = json.Criterion switch
        {
            "acceptable" => ColorCriterion.AcceptableMatch,
            "imperceptible" => ColorCriterion.ImperceptibleMatch,
            _ => throw new ArgumentException($"criterion must be \"acceptable\" or \"imperceptible\" but is \"{json.Criterion}\"."),
        };
        TargetColor = ToLab(json.Target.Lab, "target.lab");
        _zones = [.. json.Zones.Select(zone => new Zone(zone.Name, Stump(zone.Stump, grid, folder), zone.AvailableMm, Reference(json.Reference)))];
        Cements = [.. json.Cements.Select(cement => new CementChoice(new Layer(catalog[cement.Material].Material, cement.ThicknessMm)))];
        Stains = MaterialCatalog.Load(Path.Combine(folder, json.Stains.File));
        StainLayer = new StainLayer(Stains[json.Stains.Carrier].Material, json.Stains.AppliedMm, json.Stains.FiringShrinkage) { MaximumLoad = json.Stains.MaximumLoad };
        Wish = json.Wish is null ? null : MaskingReference.Target(json.Wish.Name, ToLab(json.Wish.Lab, "wish.lab"), Colorimeters[0]);
        if (json.RangeMm.Length != 2)
        {
            throw new ArgumentException("rangeMm must hold two numbers.");
        }
    }

    public string Name => _json.Name;

    public string TargetName => _json.Target.Name;

    public Lab TargetColor { get; }

    public ColorCriterion Criterion { get; }

    public IReadOnlyList<Colorimeter> Colorimeters { get; }

    public IReadOnlyList<CementChoice> Cements { get; }

    public MaterialCatalog Stains { get; }

    public StainLayer StainLayer { get; }

    public Material Liner => Stains[_json.Stains.Liner].Material;

    /// <summary>A colour asked for beside the target; null where there is none.</summary>
    public MaskingReference? Wish { get; }

    /// <summary>The neighbour tooth as a target.</summary>
    public MaskingReference Target => Reference("target");

    /// <summary>The case with the target in every zone and without cement, for matching.</summary>
    public RestorationCase Matching => Restoration(Cements[0]).WithZones(_zones.Select(zone => new Zone(zone.Name, zone.Substrate, zone.AvailableThicknessMm, Target)
    {
        ThinnestMm = Math.Max(_json.StructuralMinimumMm ?? _json.RangeMm[0], zone.AvailableThicknessMm - 0.3),
    })) with
    { LayersBelow = [] };

    /// <summary>Standard uncertainties for a stack of ceramic and cement.</summary>
    public InputUncertainty Uncertainty => new([_json.Uncertainty.WallMm, _json.Uncertainty.FilmMm])
    {
        StumpReflectance = _json.Uncertainty.StumpReflectance,
        TargetColor = _json.Uncertainty.Target,
        RefractiveIndex = _json.Uncertainty.RefractiveIndex,
    };

    public static CaseFile Read(string path, MaterialCatalog catalog)
    {
        try
        {
            CaseJson json = JsonSerializer.Deserialize<CaseJson>(File.ReadAllText(path), CaseJson.Options) ?? throw new JsonException("the file is empty.");
            return new CaseFile(json, catalog, Path.GetDirectoryName(Path.GetFullPath(path))!);
        }
        catch (Exception error) when (error is JsonException or ArgumentException)
        {
            throw new ExchangeException($"{Path.GetFileName(path)}: {error.Message}", error);
        }
    }

    public RestorationCase Restoration(CementChoice cement) => new(_zones, Criterion)
    {
        LayersBelow = [cement.Film],
        RangeMm = (_json.RangeMm[0], _json.RangeMm[1]),
        Conditions = new ViewingConditions { Colorimeters = Colorimeters, StructuralMinimumMm = _json.StructuralMinimumMm },
    };

    // A stump known by its colour alone gets the smoothest spectrum of that colour.
    private Substrate Stump(StumpJson stump, WavelengthGrid grid, string folder)
    {
        if ((stump.File is null) == (stump.Lab is null))
        {
            throw new ArgumentException("a stump needs either a file or a lab colour.");
        }

        return stump.File is not null
            ? MeasurementFile.ReadSubstrate(Path.Combine(folder, stump.File))
            : Substrate.FromMeasuredColor(stump.Name ?? "stump", ToLab(stump.Lab!, "stump.lab"), Colorimeters[0], grid, stump.RefractiveIndex);
    }

    private MaskingReference Reference(string name) => name switch
    {
        "self-backed" => MaskingReference.SelfBacked,
        "target" => MaskingReference.Target(TargetName, TargetColor, Colorimeters[0]),
        _ => throw new ArgumentException($"reference must be \"self-backed\" or \"target\" but is \"{name}\"."),
    };

    private static Lab ToLab(double[] values, string what) => values.Length == 3
        ? new Lab(values[0], values[1], values[2])
        : throw new ArgumentException($"{what} must hold L*, a* and b*.");
}
