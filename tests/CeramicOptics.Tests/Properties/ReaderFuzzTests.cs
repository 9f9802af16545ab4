using System.Diagnostics;
using System.Globalization;
using System.Text;
using CeramicOptics.Decisions.Delivered;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Tests.Unit;
using Xunit.Abstractions;

namespace CeramicOptics.Tests.Properties;

/// <summary>
/// Damaged files: every reader returns a sound object or throws <see cref="ExchangeException"/>, soon, and without
/// allocating out of proportion. CERAMICOPTICS_FUZZ sets the number of files (5,000 otherwise); a failure names reader
/// and seed, and the seed alone makes the file again.
/// </summary>
public class ReaderFuzzTests(ITestOutputHelper output)
{
    // Objects made of a file, at most; JSON elements and numbers are many times their text.
    private const double BytesPerByte = 100, BytesAtLeast = 2e6, Seconds = 2;

    private static readonly string[] Tokens =
    [
        "NaN", "Infinity", "-Infinity", "1e308", "-1e308", "1e400", "1e-320", "-0", "0", "-1", "2147483648",
        "99999999999999999999", "0,5", "1.5", "٣", "null", "true", "{}", "[]", "\"", "'", "\\", "\\u0000", "\0",
        ",", ";", ":", "\t", "\n", "\r\n", "\n\n", "#", "# name = x", "# thickness_mm = -1", "# geometry = 45:0",
        "BEGIN_DATA", "END_DATA", "BEGIN_DATA_FORMAT", "NUMBER_OF_SETS 3", "SPEC_400", "SPECTRAL_NORM 0",
        "<a>", "</a>", "<!DOCTYPE x [<!ENTITY y \"z\">]>", "&lt;", "&y;", "<![CDATA[", "-->", "\uFEFF", "\uD800", "400",
        "780", "1e5", "wavelength_nm", "reflectance",
    ];

    private static readonly (string Name, Action<string> Read, string[] Seeds)[] Readers = MakeReaders();

    [Fact]
    public void Damaged_files_are_read_or_refused()
    {
        int count = int.Parse(
            Environment.GetEnvironmentVariable("CERAMICOPTICS_FUZZ") ?? "5000", CultureInfo.InvariantCulture);
        int[] accepted = new int[Readers.Length], refused = new int[Readers.Length];
        double mostOfAllowed = 0, mostSeconds = 0;
        Stopwatch watch = new();
        Assert.All(Readers, reader => Array.ForEach(reader.Seeds, reader.Read));
        for (int seed = 0; seed < count; seed++)
        {
            // The last reader's files are long; it gets fewer.
            int reader = seed % Readers.Length;
            reader = reader == Readers.Length - 1 && seed / Readers.Length % 10 != 0 ? reader - 1 : reader;
            string file = Damaged(seed, Readers[reader].Seeds);
            long before = GC.GetAllocatedBytesForCurrentThread();
            watch.Restart();
            (Try(reader, file, seed) ? accepted : refused)[reader]++;
            double bytes = GC.GetAllocatedBytesForCurrentThread() - before, seconds = watch.Elapsed.TotalSeconds;
            for (int again = 0; again < 3 && seconds > Seconds; again++)
            {
                // The machine may have been busy with something else.
                watch.Restart();
                Try(reader, file, seed);
                seconds = Math.Min(seconds, watch.Elapsed.TotalSeconds);
            }

            double ofAllowed = bytes / (BytesAtLeast + (BytesPerByte * file.Length));
            Assert.True(
                ofAllowed <= 1, $"{Readers[reader].Name}, seed {seed}: {bytes} bytes for {file.Length} characters");
            Assert.True(seconds <= Seconds, $"{Readers[reader].Name}, seed {seed}: {seconds} s");
            (mostOfAllowed, mostSeconds) = (Math.Max(mostOfAllowed, ofAllowed), Math.Max(mostSeconds, seconds));
        }

        for (int i = 0; i < Readers.Length; i++)
        {
            // Both happen, or the files are not damaged in ways that tell anything.
            output.WriteLine($"{Readers[i].Name}: {accepted[i]} read, {refused[i]} refused");
            Assert.True(accepted[i] > 0 && refused[i] > 0, Readers[i].Name);
        }

        output.WriteLine(
            FormattableString.Invariant($"most: {mostOfAllowed:0.00} of the memory allowed, {mostSeconds:0.000} s"));
    }

    private static bool Try(int reader, string file, int seed)
    {
        try
        {
            Readers[reader].Read(file);
            return true;
        }
        catch (ExchangeException)
        {
            return false;
        }
        catch (Exception error)
        {
            Assert.Fail($"{Readers[reader].Name}, seed {seed}: {error.GetType().Name}: {error.Message}");
            throw;
        }
    }

    private static string Damaged(int seed, string[] seeds)
    {
        Random random = new(seed);
        StringBuilder text = new(seeds[random.Next(seeds.Length)]);
        for (int edits = random.Next(3) == 0 ? 1 + random.Next(4) : 1; edits > 0 && text.Length > 0; edits--)
        {
            int at = random.Next(text.Length), length = Math.Min(
                1 + random.Next(random.Next(2) == 0 ? 4 : 200), text.Length - at);
            switch (random.Next(8))
            {
                case 0:
                    text[at] = (char)random.Next(random.Next(4) == 0 ? 0xFFFF : 0x7F);
                    break;
                case 1:
                    text.Remove(at, length);
                    break;
                case 2:
                    text.Insert(at, text.ToString(at, length));
                    break;
                case 3:
                    text.Insert(at, Tokens[random.Next(Tokens.Length)]);
                    break;
                case 4:
                    // Puts something where a number or word stood.
                    int end = at;
                    while (end < text.Length && (char.IsLetterOrDigit(text[end]) || text[end] is '.' or '-' or '_'))
                    {
                        end++;
                    }

                    text.Remove(at, end - at).Insert(at, Tokens[random.Next(Tokens.Length)]);
                    break;
                case 5:
                    text.Length = at;
                    break;
                case 6:
                    string other = seeds[random.Next(seeds.Length)];
                    int from = random.Next(other.Length);
                    text.Insert(at, other.AsSpan(from, Math.Min(length, other.Length - from)));
                    break;
                default:
                    text.Insert(at, new string("[{<\",( "[random.Next(7)], 1 + random.Next(200)));
                    break;
            }
        }

        return text.ToString();
    }

    private static (string Name, Action<string> Read, string[] Seeds)[] MakeReaders()
    {
        string Demo(params string[] parts) => File.ReadAllText(Path.Combine([DemoData.Folder, .. parts]));
        string discCsv = Demo("discs", "granary-1.csv"), discCgats = Demo("discs", "tern-opaque.txt"), stumpCsv = Demo(
            "stumps", "brown-tooth.csv"), stumpCgats = Demo("stumps", "nearly-black-tooth.txt");
        const string set =
            "# material = m\n# refractive_index = 1.53\n# geometry = di:8\n# origin = invented\n"
            + "# disc_thin_black = 0.40, trap\n# disc_thin_white = 0.40, tile, glycerine\n"
            + "# disc_through = 0.40, transmittance\n"
            + "wavelength_nm,thin_black,thin_white,through,tile\n"
            + "400,0.3,0.5,0.2,0.8\n410,0.31,0.51,0.2,0.8\n420,0.32,0.52,0.2,0.8\n";

        WavelengthGrid grid = WavelengthGrid.Range(400, 700, 50);
        SpectralTable table = SpectralTable.Create(
            "seed",
            [new("a", ReflectanceSpectrum.Uniform(grid, 0.5)), new("b", ReflectanceSpectrum.Uniform(grid, 0.25))]);
        string cxf = Written(writer => Cxf3.Write(table, writer));
        string cxfColors = Written(
            writer => Cxf3.WriteColors(new ColorTable("seed", Colorimeter.D65TwoDegree,
            [new("a", new Lab(50, 1, 2)), new("b", new Lab(60, -1, 3))]), writer));
        WavelengthGrid onto = WavelengthGrid.Range(450, 550, 10);
        string[] exports = [.. Directory.GetFiles(Repository.PathOf("tests", "exports"))
            .Where(path => Path.GetExtension(path) is ".csv" or ".txt" && !path.EndsWith("bar-uneven.txt")
                && !path.EndsWith("truth.csv")).Order(StringComparer.Ordinal).Select(File.ReadAllText)];
        const string lampCsv = "wavelength_nm,power\n380,1\n480,1.5\n580,2\n680,1.5\n780,1\n";
        const string lampXml = "<IESTM2714 xmlns=\"http://www.ies.org/iestm2714\" "
            + "version=\"1.0\"><Header/><SpectralDistribution><SpectralQuantity>radiance</SpectralQuantity>"
            + "<SpectralData wavelength=\"380\">1</SpectralData><SpectralData "
                + "wavelength=\"480\">1.5</SpectralData><SpectralData "
                    + "wavelength=\"580\">2</SpectralData><SpectralData "
                        + "wavelength=\"680\">1.5</SpectralData><SpectralData "
                            + "wavelength=\"780\">1</SpectralData></SpectralDistribution></IESTM2714>";

        Material Of(string name, IOpticalModel model) => new(
            name, model, AbsorptionSpectrum.Uniform(grid, 0.1), ScatteringSpectrum.Uniform(grid, 3), 1.5,
            CoefficientUncertainty.OfScale(grid, 0.05), [0.5]);
        Provenance provenance = new(
            DataOrigin.Invented, "none", MeasurementGeometry.DiffuseSpecularIncluded, "2026-01-01");
        MaterialCatalog catalog = new("seed",
        [
            new CatalogEntry(Of("m", TransportModel.Default), MaterialRole.Ceramic, provenance, "family", 1,
            StrengthLimit.Of(0.5)),
            new CatalogEntry(Of("n", TwoFluxModel.Instance), MaterialRole.Glaze, provenance),
        ]);
        const string oldCatalog =
            "{\"format\":\"ceramic-optics-material-catalog\",\"version\":1,\"name\":\"old\","
            + "\"entries\":[{\"name\":\"m\",\"role\":\"ceramic\",\"family\":\"f\",\"grade\":3,"
            + "\"refractiveIndex\":{\"constant\":1.5},\"wavelengths\":{\"startNm\":400,\"stepNm\":100,\"count\":2},"
            + "\"absorptionPerMm\":[0.1,0.2],\"scatteringPerMm\":[3,2],"
            + "\"provenance\":{\"origin\":\"invented\",\"instrument\":\"none\","
            + "\"geometry\":\"di:8\",\"discThicknessMm\":0.8}}]}";
        Restoration crown = new(
            [new Zone("body", Substrate.Black, 1,
            MaskingReference.Over(Substrate.White)) { Strength = StrengthLimit.Of(0.5) }],
            new Ceramic("family", 1, Of("core", TwoFluxModel.Instance)),
            new Layer(Of("cement", TwoFluxModel.Instance), 0.05), ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(1, 1.01),
        };
        ThicknessResponse one = ThicknessResponse.Compile(crown, crown.Zones[0]);
        Restoration veneered = crown with { Veneer = Veneer.OfThickness(Of("veneer", TwoFluxModel.Instance), 0.5),
            WallRange = new ThicknessRange(0.5, 2) };
        TwoLayerResponse two = TwoLayerResponse.Compile(
            veneered, veneered.Zones[0], new ThicknessRange(0.5, 0.501), new ThicknessRange(0.5, 0.501));
        string[] results =
            [.. EveryAnswer.Decided().OfType<Answer>().GroupBy(answer => ResultDocument.Of(answer).Kind)
                .Select(group => group.Select(ResultJson.ToJson).MinBy(text => text.Length)!)];
        const string target = "# name = neighbour\n# geometry = "
            + "45:0\nwavelength_nm,reflectance\n400,0.4\n500,0.5\n600,0.6\n";

        return
        [
            ("CSV of a disc", text => MeasurementFile.ToDiscs(SpectralTable.Read(new StringReader(text), "f")),
            [discCsv]),
            ("CSV of a stump", text => MeasurementFile.ToSubstrate(SpectralTable.Read(new StringReader(text), "f")),
            [stumpCsv]),
            ("CSV of a target", text => MeasurementFile.ToTarget(SpectralTable.Read(new StringReader(text), "f")),
            [target]),
            ("CSV of a set of discs", text => MeasurementFile.ToDiscs(SpectralTable.Read(new StringReader(text), "f")),
            [set]),
            ("CGATS of a disc", text =>
                MeasurementFile.ToDiscs(SpectralTable.Read(new StringReader(text), "f")), [discCgats]),
            ("CGATS of a stump", text => MeasurementFile.ToSubstrate(SpectralTable.Read(new StringReader(text), "f")),
            [stumpCgats]),
            ("exports of any dialect", text =>
            {
                SpectralTable read = SpectralTable.Read(new StringReader(text), "f");
                Assert.All(read.Names, name => Assert.DoesNotContain(double.NaN, read[name].Values.ToArray()));
            }, exports),
            ("exports brought to a grid", text => SpectralTable.Read(
                new StringReader(text), "f",
                new ImportOptions { Grid = onto, Interpolation = InterpolationMethod.MonotoneCubic }), exports),
            ("CxF3 spectra", text => SpectralTable.Read(new StringReader(text), "f"), [cxf]),
            ("CxF3 colours", text => Cxf3.ReadColors(new StringReader(text), "f"), [cxfColors]),
            ("CSV of a lamp", text => IlluminantFile.ReadCsv(new StringReader(text), "f", "lamp"), [lampCsv]),
            ("XML of a lamp", text => IlluminantFile.ReadSpdx(new StringReader(text), "f", "lamp"), [lampXml]),
            ("catalogue", text => MaterialCatalog.Read(Stream(text), "f"), [Json(catalog.Write), oldCatalog]),
            ("record of delivered work", text => DeliveredFile.Read(Stream(text), "f"), 
            [Json(stream => DeliveredFile.Write(MakeDelivered(), stream))]),
            ("result", text => ResultDocument.Parse(text), results),
            ("response", text =>
            {
                ThicknessResponse response = ResponseJson.Read(Stream(text), "f");
                Assert.False(double.IsNaN(response.DifferenceAt((response.Range.MinMm + response.Range.MaxMm) / 2)));
                Assert.False(double.IsNaN(response.ColorAt(response.Range.MaxMm).L));
            }, [Json(stream => ResponseJson.Write(one, stream))]),
            ("response of two layers", text =>
            {
                TwoLayerResponse response = ResponseJson.ReadTwoLayer(Stream(text), "f");
                Assert.False(double.IsNaN(response.DifferenceAt(response.VeneerRange.MaxMm, response.CoreRange.MinMm)));
                response.CoreRequirementAt(response.VeneerRange.MinMm);
            }, [Json(stream => ResponseJson.Write(two, stream))]),
        ];
    }

    // One piece by its colours, one by a spectrum.
    private static DeliveredRecord MakeDelivered()
    {
        ColorReading predicted = ColorReading.FromColor(
            new Lab(70, 1, 15), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        ColorReading read = ColorReading.FromReflectance(
            ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0.4), Colorimeter.ATwoDegree,
            MeasurementGeometry.DiffuseSpecularIncluded);
        return DeliveredRecord.Start("seed").Append(
        [
            new DeliveredPiece("one", new DateTime(2026, 1, 2), "m", "A", 1, "brown", predicted, predicted)
            {
                Cement = "clear", Furnace = "left",
            },
            new DeliveredPiece("two", new DateTime(2026, 1, 3), "m", "B", 0.8, "brown", predicted, read),
        ]);
    }

    private static string Written(Action<TextWriter> write)
    {
        using StringWriter writer = new(CultureInfo.InvariantCulture);
        write(writer);
        return writer.ToString();
    }

    private static string Json(Action<Stream> write)
    {
        using MemoryStream stream = new();
        write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static MemoryStream Stream(string text) => new(Encoding.UTF8.GetBytes(text));
}
