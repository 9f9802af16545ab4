using System.Text;
using System.Text.Json.Nodes;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using Json.Schema;

namespace CeramicOptics.Tests.Unit;

public class ExchangeTests
{
    [Fact]
    public void Cgats_text_with_comments_quotes_and_broken_lines_is_read()
    {
        const string Text = """"
            CTI3
            # a remark
            ORIGINATOR "someone's ""program"""
            KEYWORD "NAME"
            NAME "brown tooth" # trailing remark
            NUMBER_OF_FIELDS 4
            BEGIN_DATA_FORMAT
            SAMPLE_ID SPEC_400
            SPEC_500 SPEC_600
            END_DATA_FORMAT
            NUMBER_OF_SETS 2
            BEGIN_DATA
            first 10.0 20.0 30.0
            "the second" 1.5 2.5
            3.5
            END_DATA
            """";
        SpectralTable table = SpectralTable.Read(new StringReader(Text), "x.ti3");
        Assert.Equal(["first", "the second"], table.Names);
        Assert.Equal("brown tooth", table.Metadata["name"]);
        Assert.Equal("someone's \"program\"", table.Metadata["originator"]);
        Assert.Equal([0.015, 0.025, 0.035], table["the second"].Values.ToArray(), (a, b) => Math.Abs(a - b) < 1e-15);
        Assert.Equal(100, table.Grid.StepNm);
    }

    /// <summary>
    /// A file that argyll's spec2cie wrote from spectra.csv (tests/reference/spectra.py): same names, same values to
    /// its printed digits.
    /// </summary>
    [Fact]
    public void A_file_written_by_another_program_is_read()
    {
        SpectralTable written = SpectralTable.Read(Repository.PathOf("tests", "reference", "argyll.ti3"));
        SpectralTable original = SpectralTable.Read(Repository.PathOf("tests", "reference", "spectra.csv"));
        Assert.Equal(original.Names.Append("WHITE"), written.Names);
        Assert.Equal(original.Grid, written.Grid);
        foreach (string name in original.Names)
        {
            for (int i = 0; i < original.Grid.Count; i++)
            {
                Assert.Equal(original[name][i], written[name][i], 1e-5);
            }
        }
    }

    [Fact]
    public void Values_are_divided_by_the_stated_norm()
    {
        const string Text =
            "SPECT\nSPECTRAL_NORM 1.0\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_500\nEND_DATA_FORMAT\n"
            + "BEGIN_DATA\n0.25 0.75\nEND_DATA\n";
        Assert.Equal(0.75, SpectralTable.Read(new StringReader(Text), "x.sp")["1"][1]);
    }

    [Fact]
    public void A_catalogue_reads_back_exactly_and_meets_its_schema()
    {
        Material material = DemoData.Materials["Granary zirconia, grade 2"];
        Provenance provenance = new(
            DataOrigin.Invented, "simulated", MeasurementGeometry.DiffuseSpecularIncluded, "2026-11-25", "for a test");
        Material Plain(string name, IOpticalModel model) => new(
            name, model, AbsorptionSpectrum.Uniform(material.Grid, 0.1), ScatteringSpectrum.Uniform(material.Grid, 1),
            new RefractiveIndex(1.5, 4000));
        MaterialCatalog catalog = new("demo",
        [
            new CatalogEntry(material, MaterialRole.Ceramic, provenance, "Granary zirconia", 2,
                StrengthLimit.Of(0.6, StrengthScope.CoreAndVeneer)),
            new CatalogEntry(Plain("plain", TwoFluxModel.Instance), MaterialRole.Glaze, provenance with { }),
            new CatalogEntry(Plain("forward", new TransportModel(anisotropy: 0.75)), MaterialRole.Ceramic, provenance,
                "Forward", 1),
        ]);
        byte[] text = Written(catalog);
        Assert.True(Schema.Evaluate(JsonNode.Parse(text)).IsValid);

        MaterialCatalog back = MaterialCatalog.Read(new MemoryStream(text), "demo.json");
        Assert.Equal(text, Written(back));
        Assert.Equal(
            catalog.Entries.Select(entry => (entry.Name, entry.Role, entry.Family, entry.Grade, entry.Strength)),
            back.Entries.Select(entry => (entry.Name, entry.Role, entry.Family, entry.Grade, entry.Strength)));
        Material read = back["Granary zirconia, grade 2"].Material;
        Assert.Equal(material.Absorption, read.Absorption);
        Assert.Equal(material.Scattering, read.Scattering);
        Assert.Equal(material.RefractiveIndex, read.RefractiveIndex);
        Assert.Equal(material.Uncertainty!.Correlation.ToArray(), read.Uncertainty!.Correlation.ToArray());
        Assert.Equal(material.Uncertainty.RelativeScale, read.Uncertainty.RelativeScale);
        Assert.Equal([0.3], read.DiscThicknessesMm);
        Assert.Equal(new RefractiveIndex(1.5, 4000), back["plain"].Material.RefractiveIndex);
        Assert.Equal(provenance, back["plain"].Provenance);
        Assert.Same(TwoFluxModel.Instance, back["plain"].Material.Model);
        Assert.Equal(0.75, Assert.IsType<TransportModel>(back["forward"].Material.Model).Anisotropy);
        Assert.Equal(0, Assert.IsType<TransportModel>(read.Model).Anisotropy);
        Assert.Equal(["Granary zirconia, grade 2", "Forward, grade 1"],
            back.Ceramics.Select(ceramic => ceramic.ToString()));
        Assert.Equal(["at least 0.6 mm of core and veneer", "not given"],
            back.Ceramics.Select(ceramic => ceramic.Strength.ToString()));
    }

    /// <summary>Version 1 named no theory, and the thickness of the disc stood with the provenance.</summary>
    [Fact]
    public void A_catalogue_of_version_1_has_constants_of_two_flux_theory()
    {
        const string Text = """
            {"format":"ceramic-optics-material-catalog","version":1,"name":"old","entries":[
                {"name":"m","role":"ceramic","family":"f","grade":3,
            "refractiveIndex":{"constant":1.5},"wavelengths":{"startNm":400,"stepNm":100,"count":2},
            "absorptionPerMm":[0.1,0.2],"scatteringPerMm":[3,2],
            "provenance":{"origin":"invented","instrument":"none","geometry":"di:8","discThicknessMm":0.8}}]}
            """;
        MaterialCatalog Read(string text) =>
            MaterialCatalog.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "old.json");
        MaterialCatalog old = Read(Text);
        Material material = old["m"].Material;
        Assert.Same(TwoFluxModel.Instance, material.Model);
        Assert.Equal([0.8], material.DiscThicknessesMm);
        Assert.False(old.Ceramics[0].Strength.IsGiven);
        JsonNode written = JsonNode.Parse(Written(old))!;
        Assert.True(Schema.Evaluate(written).IsValid);
        Assert.Equal(2, (int)written["version"]!);

        string Fault(string text) => Assert.Throws<ExchangeException>(() => Read(text)).Message;
        Assert.Equal("old.json: $.entries[0]: key 'model' is missing.",
            Fault(Text.Replace("\"version\":1", "\"version\":2", StringComparison.Ordinal)
                .Replace(",\"discThicknessMm\":0.8", "", StringComparison.Ordinal)));
        Assert.Equal("old.json: $.version: version 3 is not known; allowed: 1 to 2.",
            Fault(Text.Replace("\"version\":1", "\"version\":3", StringComparison.Ordinal)));
        string named = Text.Replace("\"role\"", "\"model\":{\"theory\":\"magic\"},\"role\"", StringComparison.Ordinal);
        Assert.StartsWith("old.json: $.entries[0]: key 'model' is unknown;", Fault(named), StringComparison.Ordinal);
        Assert.Equal(
            "old.json: $.entries[0].model.theory: theory 'magic' is unknown; allowed: two-flux, radiative transfer.",
            Fault(named.Replace("\"version\":1", "\"version\":2", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_strength_limit_belongs_to_a_ceramic()
    {
        Provenance provenance = new(DataOrigin.Invented, "simulated", MeasurementGeometry.Internal, null);
        Assert.Equal(
            "'Tern cement, opaque' is not a ceramic; a strength limit belongs to the ceramic of the core.",
            Assert.Throws<ArgumentException>(() => new CatalogEntry(DemoData.Materials["Tern cement, opaque"],
                MaterialRole.Cement, provenance, strength: StrengthLimit.Of(0.5))).Message);
    }

    /// <summary>
    /// A target keeps the geometry of its file, and without one it is refused: colours of different geometries cannot
    /// be compared.
    /// </summary>
    [Fact]
    public void A_target_is_read_with_its_geometry()
    {
        const string Text =
            "# name = neighbour\n# geometry = 45:0\n# instrument = simulated\n"
            + "wavelength_nm,reflectance\n400,0.4\n500,0.5\n600,0.6\n";
        Target target = MeasurementFile.ToTarget(SpectralTable.Read(new StringReader(Text), "t.csv"));
        Assert.Equal(("neighbour", MeasurementGeometry.FortyFiveZero), (target.Name, target.Geometry));
        Assert.Equal([0.4, 0.5, 0.6], target.Spectrum!.Values.ToArray());
        Assert.Equal(
            "t.csv: metadata 'geometry' is missing; it has no default and may be di:8, de:8, 45:0, 0:45, d:d, "
                + "internal.",
            Assert.Throws<ExchangeException>(() => MeasurementFile.ToTarget(SpectralTable.Read(new StringReader(
                Text.Replace("# geometry = 45:0\n", "", StringComparison.Ordinal)), "t.csv"))).Message);
        Assert.Equal(
            "t.csv: metadata 'geometri' is unknown; is 'geometry' meant?",
            Assert.Throws<ExchangeException>(() => MeasurementFile.ToTarget(SpectralTable.Read(
                new StringReader(Text.Replace("geometry", "geometri", StringComparison.Ordinal)), "t.csv"))).Message);
    }

    /// <summary>One disc or a set of discs: the metadata tell which.</summary>
    [Fact]
    public void Discs_are_read_with_their_origin()
    {
        DiscFile one = MeasurementFile.ReadDiscs(Path.Combine(DemoData.Folder, "discs", "granary-1.csv"));
        Assert.Equal((2, DataOrigin.Invented), (one.Discs.Readings.Count, one.Provenance.Origin));
        const string Set =
            "# material = m\n# refractive_index = 1.53\n# geometry = di:8\n# origin = published\n"
            + "# disc_thin_black = 0.40, trap\n# disc_thick_white = 0.80, tile, glycerine\n"
            + "# disc_through = 0.40, transmittance\nwavelength_nm,thin_black,thick_white,through,tile\n"
            + "400,0.3,0.5,0.2,0.8\n410,0.31,0.51,0.2,0.8\n";
        DiscFile set = MeasurementFile.ToDiscs(SpectralTable.Read(new StringReader(Set), "s.csv"));
        Assert.Equal([0.4, 0.8], set.Discs.ThicknessesMm);
        Assert.Equal((3, DataOrigin.Published), (set.Discs.Readings.Count, set.Provenance.Origin));
        Assert.Equal("m, discs of 0.4, 0.8 mm", set.Discs.ToString());
    }

    [Fact]
    public void Names_of_a_catalogue_are_its_keys()
    {
        Provenance provenance = new(DataOrigin.Invented, "simulated", MeasurementGeometry.Internal, null);
        CatalogEntry one = new(InventedData.Liner, MaterialRole.Liner, provenance);
        Assert.StartsWith(
            "Material 'liner' is in the catalogue twice.",
            Assert.Throws<ArgumentException>(() => new MaterialCatalog("twice", [one, one])).Message,
            StringComparison.Ordinal);
        MaterialCatalog catalog = new("one", [one]);
        Assert.Same(one, catalog["liner"]);
        Assert.StartsWith(
            "Material 'glaze' is not in the catalogue; it holds liner.",
            Assert.Throws<ArgumentException>(() => catalog["glaze"]).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Saving_replaces_a_file_as_a_whole()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".json");
        try
        {
            Material material = InventedData.Glaze;
            Provenance provenance = new(DataOrigin.Invented, "simulated", MeasurementGeometry.Internal, null);
            new MaterialCatalog("first", [new CatalogEntry(material, MaterialRole.Cement, provenance)]).Save(path);
            new MaterialCatalog("second", [new CatalogEntry(material, MaterialRole.Cement, provenance)]).Save(path);
            Assert.Equal("second", MaterialCatalog.Load(path).Name);
            Assert.False(File.Exists(path + ".new"));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Files_are_read_alike_in_a_culture_with_decimal_comma()
    {
        var before = Thread.CurrentThread.CurrentCulture;
        try
        {
            Thread.CurrentThread.CurrentCulture = new System.Globalization.CultureInfo("")
            {
                NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = "." },
            };
            SpectralTable table = SpectralTable.Read(new StringReader("wavelength_nm,r\n400,0.25\n500,0.5\n"), "x.csv");
            Assert.Equal(0.25, table["r"][0]);
            Assert.Contains("0.25", ReflectanceText(0.25), StringComparison.Ordinal);
        }
        finally
        {
            Thread.CurrentThread.CurrentCulture = before;
        }

        static string ReflectanceText(double value) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => TwoFluxLayer.Reflectance(-value, 1, 1, 0)).Message;
    }

    [Fact]
    public void A_file_without_end_is_refused_before_it_fills_the_memory()
    {
        ExchangeException error =
            Assert.Throws<ExchangeException>(() => SpectralTable.Read(new EndlessReader(), "big.csv"));
        Assert.Equal("big.csv: the file is longer than 16777216 characters.", error.Message);
    }

    private static JsonSchema Schema { get; } =
        JsonSchema.FromText(File.ReadAllText(Repository.PathOf("docs", "schema", "material-catalog.schema.json")));

    private static byte[] Written(MaterialCatalog catalog)
    {
        using MemoryStream stream = new();
        catalog.Write(stream);
        return stream.ToArray();
    }

    private sealed class EndlessReader : TextReader
    {
        public override int Read(char[] buffer, int index, int count)
        {
            Array.Fill(buffer, 'x', index, count);
            return count;
        }
    }
}
