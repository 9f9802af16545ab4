using CeramicOptics.Exchange;

namespace CeramicOptics.Tests.Design;

/// <summary>Faulty files of readings, for the table of messages.</summary>
public class ImportBadInput
{
    private const string Csv = "wavelength_nm,reflectance\n400,0.1\n410,0.2\n420,0.3\n";

    private const string Disc = "# material = m\n# refractive_index = 1.53\n# thickness_mm = 0.8\n# geometry = di:8\n"
        + "# coupling = air\n# black = trap\n# origin = invented\n"
        + "wavelength_nm,over_black,over_white,white_backing\n400,0.3,0.5,0.8\n410,0.3,0.5,0.8\n";

    internal static Dictionary<string, Action> Cases { get; } = new()
    {
        ["file: nothing"] = () => Read(""),
        ["file: no numbers"] = () => Read("Report\nOperator: J. Doe\nno readings were made\n"),
        ["file: a workbook"] = () => Read("PK\u0003\u0004\0\0\0\u0008"),
        ["file: colours alone"] = () => Read("name;L*;a*;b*\nwhite;92,1;-0,5;2,1\nblack;12,0;0,1;-0,3\n"),
        ["file: wavelengths in micrometres"] = () => Read("wavelength,grey\n0.400,0.5\n0.410,0.5\n"),
        ["file: truncated"] = () => Read("wavelength_nm,reflectance\n400,0.1\n"),
        ["file: row too short"] = () => Read(Csv + "430\n"),
        ["file: row too long"] = () => Read(Csv + "430,0.3,0.4\n"),
        ["file: not a number"] = () => Read(Csv + "430,dark\n440,0.3\n"),
        ["file: value missing"] = () => Read("nm;a;b\n400;0,1;0,2\n410;;0,2\n420;0,1;0,2\n"),
        ["file: mixed separators"] = () => Read("nm;a;b\n400;0.1;0.2\n410;0.1;0.2\n420,0.1,0.2\n"),
        ["file: comma as separator and decimal mark"] = () => Read("nm,a,b\n400,0,31,0,52\n410,0,32,0,53\n"),
        ["file: two decimal marks in a number"] = () => Read("nm;a\n400;0,31\n410;1.000,32\n420;0,33\n"),
        ["file: point among decimal commas"] = () => Read("nm;a\n400;0,31\n410;0.32\n420;0,33\n"),
        ["file: comma among decimal points"] = () => Read("nm;a\n400;0.31\n410;0,32\n420;0.33\n"),
        ["file: decimal comma against the given dialect"] = () => SpectralTable.Read(
            new StringReader("nm;a\n400;0,31\n410;0,32\n"), "readings.csv",
            new ImportOptions { Dialect = new TableDialect { DecimalMark = DecimalMark.Point } }),
        ["file: quote not closed"] = () => Read("nm,\"over black\n400,0.1\n410,0.2\n"),
        ["file: wavelength twice"] = () => Read(Csv + "420,0.3\n"),
        ["file: wavelengths that fall and rise"] = () => Read("nm,a\n420,0.1\n410,0.2\n400,0.3\n405,0.3\n"),
        ["file: wavelengths that rise and fall"] = () => Read("nm,a\n400,0.1\n410,0.2\n405,0.3\n"),
        ["file: wavelength missing"] = () => Read("nm,a\n400,0.1\n410,0.2\n430,0.3\n440,0.3\n"),
        ["file: wavelengths unequally spaced"] = () => Read("nm,a\n400,0.1\n410,0.2\n421.5,0.3\n440,0.3\n"),
        ["file: wavelength of no light"] = () => Read("nm,a\n400,0.1\n410,0.2\n42,0.3\n430,0.3\n"),
        ["file: wavelength with a letter O"] = () => Read("nm,a\n400,0.1\n41O,0.2\n420,0.3\n"),
        ["file: wavelength twice in a heading"] = () => Read("name;400;410;410;420\ngrey;50;51;52;53\n"),
        ["file: headings fewer than fields"] = () => Read("nm;a\n400;0,1;0,2\n410;0,1;0,2\n"),
        ["file: percent and 0 to 1 in one file"] = () => Read("nm;black;white\n400;0,05;88,1\n410;0,05;88,4\n"),
        ["file: percent and 0 to 1 in one reading"] = () => Read("nm;a\n400;45,1\n410;45,9\n420;0,467\n"),
        ["file: headings say percent over values from 0 to 1"] = () => Read("nm;a (%R)\n400;0,45\n410;0,46\n"),
        ["file: neither percent nor 0 to 1"] = () => Read("nm;a\n400;1,3\n410;1,4\n"),
        ["file: more than all light"] = () => Read("nm;a (%)\n400;99\n410;123\n"),
        ["file: negative reflectance"] = () => Read("nm;a\n400;-0,01\n410;0,02\n"),
        ["file: absorbance"] = () => Read("Wavelength nm.;Abs.\n400;0,305\n410;0,301\n"),
        ["file: K/S"] = () => Read("nm;white;grey\nnm;K/S;K/S\n400;0,03;0,31\n410;0,03;0,30\n"),
        ["file: names that differ in case"] = () => Read("nm,White,white\n400,0.8,0.8\n410,0.8,0.8\n"),
        ["file: names of two words between blanks"] = () => Read("nm over black\n400 0.1\n410 0.2\n"),
        ["file: name missing in a list"] = () => Read("sample;nm;R\nwhite;400;80\n;410;80\nwhite;420;80\n"),
        ["file: wavelength twice in a list"] = () => Read("sample;nm;R\nwhite;400;80\nwhite;410;80\nwhite;410;81\n"),
        ["file: readings at different wavelengths"] = () => Read(
            "sample;nm;R\nwhite;400;80\nwhite;410;80\nblack;405;4\nblack;415;4\n"),
        ["file: grid beyond the readings"] = () => SpectralTable.Read(
            new StringReader(Csv), "readings.csv",
            new ImportOptions { Grid = Spectra.WavelengthGrid.Range(390, 420, 10) }),
        ["file: full scale of nothing"] = () => _ = new TableDialect { FullScale = 0 },
        ["file: heading before the first line"] = () => _ = new TableDialect { HeadingLine = -1 },
        ["file: metadata twice"] = () => Read("# name = a\n# name = b\n" + Csv),
        ["file: metadata with a slip"] = () => MeasurementFile.ToSubstrate(
            Read("# name = stump\n# refractive_idx = 1.54\n# geometry = di:8\n" + Csv)),
        ["file: metadata missing"] = () => MeasurementFile.ToSubstrate(Read("# name = stump\n# geometry = di:8\n"
            + Csv)),
        ["file: metadata not a number"] = () => MeasurementFile.ToDiscs(Read(Disc.Replace("= 0.8", "= 0,8 mm"))),
        ["file: reading missing"] = () => MeasurementFile.ToDiscs(Read(Disc.Replace("over_white", "white"))),
        ["file: unknown geometry"] = () => MeasurementFile.ToSubstrate(
            Read("# name = stump\n# refractive_index = 1.54\n# geometry = d/8\n" + Csv)),
        ["disc: geometry missing"] = () => MeasurementFile.ToDiscs(Read(Without("geometry"))),
        ["disc: coupling missing"] = () => MeasurementFile.ToDiscs(Read(Without("coupling"))),
        ["disc: coupling unknown"] = () => MeasurementFile.ToDiscs(Read(Disc.Replace("= air", "= oil"))),
        ["disc: black missing"] = () => MeasurementFile.ToDiscs(Read(Without("black"))),
        ["disc: black of another word"] = () => MeasurementFile.ToDiscs(Read(Disc.Replace("= trap", "= velvet"))),
        ["disc: black twice"] = () => MeasurementFile.ToDiscs(Read(Disc.Replace("white_backing", "black_backing"))),
        ["disc: thickness missing"] = () => MeasurementFile.ToDiscs(Read(Without("thickness_mm"))),
        ["disc: origin missing"] = () => MeasurementFile.ToDiscs(Read(Without("origin"))),
        ["disc set: coupling missing"] = () => MeasurementFile.ToDiscs(Read(
            "# material = m\n# refractive_index = 1.53\n# geometry = di:8\n# origin = invented\n# disc_a = 0.5, tile\n"
                + "# disc_b = 0.5, trap\nwavelength_nm,a,b,tile\n400,0.5,0.4,0.8\n410,0.5,0.4,0.8\n")),
        ["CGATS: no data format"] = () => Cgats("CGATS.17\nBEGIN_DATA\n1\nEND_DATA\n"),
        ["CGATS: truncated"] = () => Cgats(
            "CGATS.17\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_410\nEND_DATA_FORMAT\nBEGIN_DATA\n10 20\n"),
        ["CGATS: set too short"] = () => Cgats(
            "CGATS.17\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_410\nEND_DATA_FORMAT\nBEGIN_DATA\n10\nEND_DATA\n"),
        ["CGATS: count of sets wrong"] = () => Cgats(
            "CGATS.17\nNUMBER_OF_SETS 2\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_410\nEND_DATA_FORMAT\nBEGIN_DATA\n10 "
                + "20\nEND_DATA\n"),
        ["CGATS: no spectral field"] = () => Cgats(
            "CGATS.17\nBEGIN_DATA_FORMAT\nLAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n50 0 0\nEND_DATA\n"),
        ["CGATS: quote not closed"] = () => Cgats("CGATS.17\nORIGINATOR \"x\n"),
        ["CGATS: norm of nothing"] = () => Cgats(
            "CGATS.17\nSPECTRAL_NORM 0\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_410\nEND_DATA_FORMAT\nBEGIN_DATA\n10 "
                + "20\nEND_DATA\n"),
        ["CGATS: two decimal marks in a number"] = () => Cgats(
            "CGATS.17\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_410\nEND_DATA_FORMAT\nBEGIN_DATA\n10,5 1.020,5\nEND_DATA\n"),
        ["CxF3: in percent"] = () => Read(
            "<CxF xmlns=\"http://colorexchangeformat.com/CxF3-core\"><Object Name=\"a\"><ReflectanceSpectrum "
                + "StartWL=\"400\" Increment=\"10\">50 60</ReflectanceSpectrum></Object></CxF>"),
        ["CxF3: no start"] = () => Read(
            "<CxF xmlns=\"http://colorexchangeformat.com/CxF3-core\"><Object Name=\"a\"><ReflectanceSpectrum "
                + "Increment=\"10\">0.5 0.6</ReflectanceSpectrum></Object></CxF>"),
        ["CxF3: not CxF"] = () => Read("<html><body>readings</body></html>"),
        ["lamp: two columns of powers"] = () => IlluminantFile.ReadCsv(
            new StringReader("nm;a;b\n400;1;2\n410;1;2\n"), "lamp.csv", "lamp"),
        ["replicates: one"] = () => Spectra.ReplicateSummary.Of([Grey(10)]),
        ["replicates: two grids"] = () => Spectra.ReplicateSummary.Of([Grey(10), Grey(20)]),
        ["material: resampled beyond its range"] = () => new Material(
            "m", Layers.TwoFlux.TwoFluxModel.Instance, Spectra.AbsorptionSpectrum.Uniform(Grey(10).Grid, 1),
            Spectra.ScatteringSpectrum.Uniform(Grey(10).Grid, 1), 1.5)
            .Resample(Spectra.WavelengthGrid.Range(380, 700, 10)),
    };

    private static Spectra.ReflectanceSpectrum Grey(double step) =>
        Spectra.ReflectanceSpectrum.Uniform(Spectra.WavelengthGrid.Range(400, 700, step), 0.5);

    private static string Without(string key) =>
        string.Join("\n", Disc.Split('\n').Where(line => !line.StartsWith($"# {key} ", StringComparison.Ordinal)));

    private static SpectralTable Read(string text) => SpectralTable.Read(new StringReader(text), "readings.csv");

    private static SpectralTable Cgats(string text) => SpectralTable.Read(new StringReader(text), "readings.txt");
}
