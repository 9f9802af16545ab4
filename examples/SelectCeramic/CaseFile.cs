using System.Text.Json;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The case as the user writes it; docs/case-file.md describes the keys.</summary>
internal sealed class CaseFile
{
    private readonly CaseJson _json;
    private readonly IReadOnlyList<Zone> _zones;
    private readonly StrengthLimit _strength;
    private readonly Target _target;

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
        if (json.Illuminants.Length == 0 || json.Cements.Length == 0)
        {
            throw new ArgumentException("illuminants and cements must hold at least one each.");
        }

        Colorimeters = [.. json.Illuminants.Select(name => new Colorimeter(observer, Illuminant.Named(name)))];
        Criterion = json.Criterion switch
        {
            "acceptable" => ColorCriterion.AcceptabilityThreshold,
            "imperceptible" => ColorCriterion.PerceptibilityThreshold,
            _ => throw new ArgumentException(
                $"criterion must be \"acceptable\" or \"imperceptible\" but is \"{json.Criterion}\"."),
        };
        TargetColor = ToLab(json.Target.Lab, "target.lab");
        _target = ToTarget(json.Target, "target");
        _strength = json.StructuralMinimumMm is double mm ? StrengthLimit.Of(mm) : StrengthLimit.NotGiven;
        _zones =
        [
            .. json.Zones.Select(zone => new Zone(zone.Name, Stump(zone, grid, folder), zone.AvailableMm,
            Reference(json.Reference))
            {
                Strength = _strength,
            }),
        ];
        Cements = [.. json.Cements.Select(
            cement => new CementChoice(new Layer(catalog[cement.Material].Material, cement.ThicknessMm)))];
        Stains = MaterialCatalog.Load(Path.Combine(folder, json.Stains.File));
        StainLayer = new StainLayer(
            Stains[json.Stains.Carrier].Material, json.Stains.AppliedMm, json.Stains.FiringShrinkage);
        Wish = json.Wish is null ? null : ToTarget(json.Wish, "wish");
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

    public double MaximumLoad => _json.Stains.MaximumLoad;

    /// <summary>A colour asked for beside the target; null where there is none.</summary>
    public Target? Wish { get; }

    /// <summary>True for the data that comes with the program.</summary>
    public bool IsInvented => _json.Note?.StartsWith("Invented", StringComparison.Ordinal) == true;

    public static CaseFile Read(string path, MaterialCatalog catalog)
    {
        try
        {
            CaseJson json = JsonSerializer.Deserialize<CaseJson>(File.ReadAllText(path),
                CaseJson.Options) ?? throw new JsonException("the file is empty.");
            return new CaseFile(json, catalog, Path.GetDirectoryName(Path.GetFullPath(path))!);
        }
        catch (Exception error) when (error is JsonException or ArgumentException)
        {
            throw new ExchangeException($"{Path.GetFileName(path)}: {error.Message}", error);
        }
    }

    /// <summary>The restoration as masking reads it.</summary>
    public Restoration Masking(Ceramic ceramic, CementChoice cement) => new(_zones, ceramic, cement.Film, Criterion)
    {
        WallRange = new ThicknessRange(_json.RangeMm[0], _json.RangeMm[1]),
        Viewing = new ViewingConditions { Colorimeters = Colorimeters },
        Uncertainty = new InputUncertainty
        {
            CoreMm = _json.Uncertainty.WallMm,
            CementMm = _json.Uncertainty.FilmMm,
            StumpReflectance = _json.Uncertainty.StumpReflectance,
            TargetColor = _json.Uncertainty.Target,
            RefractiveIndex = _json.Uncertainty.RefractiveIndex,
        },
    };

    /// <summary>The same with the target in every zone, and walls down to 0.3 mm less than available.</summary>
    public Restoration Matching(Ceramic ceramic, CementChoice cement) =>
        Masking(ceramic, cement).WithZones(_zones.Select(zone =>
        zone.ComparedWith(Reference("target")) with
        {
            ThinnestMm = Math.Max(_json.StructuralMinimumMm ?? _json.RangeMm[0], zone.AvailableMm - 0.3),
        }));

    // A stump known by its colour alone gets the smoothest spectrum of that colour.
    private Substrate Stump(ZoneJson zone, WavelengthGrid grid, string folder)
    {
        StumpJson stump = zone.Stump;
        string place = $"stump of zone '{zone.Name}'";
        if ((stump.File is null) == (stump.Lab is null))
        {
            throw new ArgumentException($"{place} needs either a file or a lab colour.");
        }

        if (stump.File is not null)
        {
            return stump.KeysOfColor().Any()
                ? throw new ArgumentException($"{place}: its file states what was read; leave out "
                    + $"{string.Join(", ", stump.KeysOfColor())}, or state it in {stump.File}.")
                : MeasurementFile.ReadSubstrate(Path.Combine(folder, stump.File));
        }

        return Substrate.FromMeasuredColor(
            stump.Name ?? "stump", ToLab(stump.Lab!, $"lab of the {place}"), Colorimeters[0], grid,
            stump.RefractiveIndex ?? 1.54, Geometry(stump.Geometry ?? "di:8"), Area(stump.Area));
    }

    private Target ToTarget(TargetJson json, string what) => Target.FromColor(
        json.Name, ToLab(json.Lab, what + ".lab"), Colorimeters[0], Geometry(json.Geometry), Area(json.Area));

    // Not stated where the file does not say it, which every answer then cautions about.
    private static ReadingArea Area(AreaJson? json) => json switch
    {
        null => ReadingArea.NotStated,
        { Large: true, SpotRadiusMm: null, WindowRadiusMm: null } => ReadingArea.Large,
        { Large: false, SpotRadiusMm: double spot, WindowRadiusMm: double window } =>
            ReadingArea.Circular(spot, window),
        _ => throw new ArgumentException(
            "an area needs either large (true) or both spotRadiusMm and windowRadiusMm."),
    };

    private static MeasurementGeometry Geometry(string name) => name switch
    {
        "di:8" => MeasurementGeometry.DiffuseSpecularIncluded,
        "de:8" => MeasurementGeometry.DiffuseSpecularExcluded,
        "45:0" => MeasurementGeometry.FortyFiveZero,
        "0:45" => MeasurementGeometry.ZeroFortyFive,
        _ => throw new ArgumentException($"geometry must be di:8, de:8, 45:0 or 0:45 but is \"{name}\"."),
    };

    private ColorReference Reference(string name) => name switch
    {
        "self-backed" => MaskingReference.SelfBacked,
        "target" => _target,
        _ => throw new ArgumentException($"reference must be \"self-backed\" or \"target\" but is \"{name}\"."),
    };

    private static Lab ToLab(double[] values, string what) => values.Length == 3
        ? new Lab(values[0], values[1], values[2])
        : throw new ArgumentException($"{what} must hold L*, a* and b*.");
}
