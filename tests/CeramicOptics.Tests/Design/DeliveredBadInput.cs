using System.Text;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Bad input about delivered work, for the table of messages.</summary>
public class DeliveredBadInput
{
    private const MeasurementGeometry Geometry = MeasurementGeometry.DiffuseSpecularIncluded;
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly Lab Some = new(70, 1, 15);
    private static readonly InputUncertainty WallsAlone = new()
    {
        CoreMm = 1, CementMm = 0, StumpReflectance = 0, RefractiveIndex = 0, ModelColor = 0,
    };

    private static readonly CorrectionOptions OnlyWalls = new()
    {
        CommonShare = 1, BatchScale = 0, UnstatedScale = 0, FurnaceColor = 0, ReadingColor = 0.1,
    };

    internal static Dictionary<string, Action> Cases { get; } = new()
    {
        ["prediction and reading in different geometries"] = () =>
            Piece(read: Reading(MeasurementGeometry.FortyFiveZero)),
        ["prediction and reading under different lights"] = () => Piece(
            read: ColorReading.FromColor(Some, Colorimeter.ATwoDegree, Geometry)),
        ["reading of NaN"] = () => ColorReading.FromColor(new Lab(70, double.NaN, 0), Colorimeter.D65TwoDegree,
            Geometry),
        ["wall of a piece in micrometres"] = () => Piece(wallMm: 900),
        ["delivered piece without a batch"] = () => Piece(batch: ""),
        ["dates that run backwards"] = () => Record().Append(Piece("crown 2", day: 1)),
        ["delivered piece twice"] = () => Record().Append(Piece()),
        ["agreement of no piece"] = () => Agreement.Find(DeliveredRecord.Start("laboratory"), AgreementBy.All),
        ["reading of another ceramic"] = () => Correction.Find(Record(), _ => Plan("other ceramic")),
        ["reading over another stump"] = () => Correction.Find(Record(), _ => Plan(stump: "brown stump")),
        ["reading of another wall"] = () => Correction.Find(Record(), _ => Plan(wallMm: 1.2)),
        ["reading of a piece that is not bonded"] = () => Correction.Find(
            Record(), _ => Plan().Unbonded(CouplingMedium.Air)),
        ["restoration viewed in another geometry than its piece"] = () => Correction.Find(
            Record(), _ => Plan() with { Viewing = new() { Geometry = MeasurementGeometry.FortyFiveZero } }),
        ["restoration of a piece with two zones"] = () => Correction.Find(
            Record(), _ => Plan().WithZones([Zone("body", "stump", 1), Zone("cervical", "stump", 1)])),
        ["no restoration for a piece"] = () => Drift.Find(Record(), _ => null!),
        ["two sets of constants of one ceramic"] = () => Correction.Find(
            Record().Append(Piece("crown 2", day: 3)), piece => Plan(scattering: piece.Name == "crown 2" ? 5 : 4)),
        ["wall that the correction leaves nothing of"] = () => Correction
            .Find(TooDark(0.5), _ => Plan(wallMm: 0.5) with { Uncertainty = WallsAlone }, OnlyWalls)
            .PredictionFor(Plan(wallMm: 0.3), "A"),
        ["drift of walls that cannot be so thin"] = () => Drift.Find(
            TooDark(0.3),
            _ => Plan(wallMm: 0.3) with { Uncertainty = WallsAlone }, new DriftOptions { Expected = OnlyWalls }),
        ["material without a delivered piece"] = () => Correction.Find(Record(), _ => Plan())
            .MaterialFor(Material("other ceramic", 4), "A"),
        ["false alarm every piece"] = () => _ = new DriftOptions { PiecesPerFalseAlarm = 1 },
        ["batches in per cent"] = () => _ = new CorrectionOptions { BatchScale = 5 },
        ["record of a light of its own"] = () => DeliveredFile.Write(
            DeliveredRecord.Start("laboratory").Append(new DeliveredPiece(
                "crown", new DateTime(2026, 3, 2), "ceramic", "A", 1, "stump", Own(), Own())), Stream.Null),
        ["record file with dates that run backwards"] = () => Read(
            $$"""
            {"name":"laboratory","pieces":[{{Json("crown 1", "2026-03-02")}},
            {{Json("crown 2", "2026-03-01")}}]
            """),
        ["record file with a day of no calendar"] = () => Read(
            $$"""{"name":"laboratory","pieces":[{{Json("crown 1", "2026-02-30")}}]"""),
        ["record file with readings in two geometries"] = () => Read(
            $$"""{"name":"laboratory","pieces":[{{Json("crown 1", "2026-03-02", geometry: "45:0")}}]"""),
        ["record file with an unknown observer"] = () => Read(
            $$"""{"name":"laboratory","pieces":[{{Json("crown 1", "2026-03-02", observer: "2")}}]"""),
        ["record file of a newer version"] = () => Read("""{"name":"laboratory","pieces":[]""", version: 2),
    };

    /// <summary>What is answered, with a finding.</summary>
    internal static Dictionary<string, Func<CorrectionFinding>> Found { get; } = new()
    {
        ["ten equal pieces"] = () => Correction
            .Find(
                DeliveredRecord.Start("laboratory").Append(
                    Enumerable.Range(1, 10).Select(i => Piece($"crown {i}", day: i))), _ => Plan())
            .Findings.Single(finding => finding.Kind == CorrectionFindingKind.EqualPieces),
    };

    private static ColorReading Own() => ColorReading.FromColor(
        Some, new Colorimeter(Observer.Cie1931TwoDegree, Illuminant.Planckian(4000)), Geometry);

    private static ColorReading Reading(MeasurementGeometry geometry) =>
        ColorReading.FromColor(Some, Colorimeter.D65TwoDegree, geometry);

    private static DeliveredPiece Piece(
        string name = "crown 1", int day = 2, double wallMm = 1, string batch = "A", ColorReading? read = null) => new(
            name, new DateTime(2026, 3, day), "ceramic", batch, wallMm, "stump", Reading(Geometry),
            read ?? Reading(Geometry)) { Cement = "cement" };

    private static DeliveredRecord TooDark(double wallMm) => DeliveredRecord.Start("laboratory").Append(Piece(
        wallMm: wallMm, read: ColorReading.FromColor(new Lab(5, 0, 0), Colorimeter.D65TwoDegree, Geometry)));

    private static DeliveredRecord Record() => DeliveredRecord.Start("laboratory").Append(Piece());

    private static Material Material(string name, double scattering) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1),
        ScatteringSpectrum.Uniform(Grid, scattering), 1.53);

    private static Zone Zone(string name, string stump, double wallMm) => new(
        name, Substrate.FromInternalReflectance(stump, ReflectanceSpectrum.Uniform(Grid, 0.2), 1.54), wallMm,
        MaskingReference.SelfBacked);

    private static Restoration Plan(
        string ceramic = "ceramic", string stump = "stump", double wallMm = 1, double scattering = 4) => new(
            [Zone("body", stump, wallMm)], new Ceramic("ceramic", 1, Material(ceramic, scattering)),
            new Layer(Material("cement", 1), 0.05), ColorCriterion.AcceptabilityThreshold);

    private static string Json(string name, string date, string geometry = "di:8", string observer = "2°") => $$$"""
        {"name":"{{{name}}}","date":"{{{date}}}","ceramic":"ceramic","batch":"A","wallMm":1,"stump":"stump",
        "predicted":{"illuminant":"D65","observer":"{{{observer}}}","geometry":"di:8","color":[70,1,15]},
        "read":{"illuminant":"D65","observer":"2°","geometry":"{{{geometry}}}","color":[70,1,15]}}
        """;

    private static void Read(string content, int version = 1) => DeliveredFile.Read(
        new MemoryStream(Encoding.UTF8.GetBytes(
            $$"""{"format":"ceramic-optics-delivered-record","version":{{version}},""" + content[1..] + "}")),
        "record.json");
}
