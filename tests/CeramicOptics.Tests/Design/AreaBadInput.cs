using CeramicOptics.Characterization;
using CeramicOptics.Exchange;

namespace CeramicOptics.Tests.Design;

/// <summary>Rows of docs/errors.md about what instruments light and see.</summary>
internal static class AreaBadInput
{
    private const string Disc =
        "# material = m\n# refractive_index = 1.5\n# thickness_mm = 1\n# geometry = di:8\n# coupling = glycerine\n"
            + "# origin = invented\n# black = trap\n";

    private const string Readings =
        "wavelength_nm,over_black,over_white,white_backing\n400,0.4,0.5,0.9\n410,0.4,0.5,0.9\n";

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 500, 100);

    public static IReadOnlyDictionary<string, Action> Cases { get; } = new Dictionary<string, Action>
    {
        ["window wider than the disc"] = () => ReadingArea.OnDisc(2, 6, 5, DiscSide.PolishedInAir),
        ["spot wider than the disc"] = () => ReadingArea.OnDisc(6, 2, 5, DiscSide.PolishedInAir),
        ["window smaller than 0.5 mm"] = () => ReadingArea.Circular(2, 0.2),
        ["correction of an unknown window"] = () => WindowCorrection.Find(
            "tooth", ReflectanceSpectrum.Uniform(Grid, 0.5), MeasurementGeometry.DiffuseSpecularIncluded,
            ReadingArea.NotStated, new BodyScattering(1.54, 2, 0.3)),
        ["tooth too light for its scattering"] = () => WindowCorrection.Find(
            "tooth", ReflectanceSpectrum.Uniform(Grid, 0.9), MeasurementGeometry.DiffuseSpecularIncluded,
            ReadingArea.Circular(2, 2), new BodyScattering(1.54, 1, 0)),
        ["body without scattering"] = () => _ = new BodyScattering(1.54, 0.1, 0.3),
        ["disc file: window without a spot"] = () => ReadDiscs("# window_radius_mm = 2\n"),
        ["disc file: window wider than the disc"] = () => ReadDiscs(
            "# spot_radius_mm = 2\n# window_radius_mm = 6\n# specimen_radius_mm = 5\n# specimen_side = polished\n"),
        ["disc file: area of another name"] = () => ReadDiscs("# area = small\n"),
        ["disc file: area twice"] = () => ReadDiscs("# area = large\n# spot_radius_mm = 2\n"),
        ["disc file: side of another name"] = () => ReadDiscs(
            "# spot_radius_mm = 2\n# window_radius_mm = 2\n# specimen_radius_mm = 5\n# specimen_side = rough\n"),
    };

    private static void ReadDiscs(string area) => MeasurementFile.ToDiscs(
        SpectralTable.Read(new StringReader(Disc + area + Readings), "readings.csv"));
}
