using System.Text;
using System.Text.Json.Nodes;
using CeramicOptics.Exchange;
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
            A1 10.0 20.0 30.0
            "B 2" 1.5 2.5
            3.5
            END_DATA
            """";
        SpectralTable table = Cgats.Read(new StringReader(Text), "x.ti3");
        Assert.Equal(["A1", "B 2"], table.Names);
        Assert.Equal("brown tooth", table.Metadata["name"]);
        Assert.Equal("someone's \"program\"", table.Metadata["originator"]);
        Assert.Equal([0.015, 0.025, 0.035], table["B 2"].Values.ToArray(), (a, b) => Math.Abs(a - b) < 1e-15);
        Assert.Equal(100, table.Grid.StepNm);
    }

    /// <summary>A file that argyll's spec2cie wrote from spectra.csv (tests/reference/spectra.py): same names, same values to its printed digits.</summary>
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
        const string Text = "SPECT\nSPECTRAL_NORM 1.0\nBEGIN_DATA_FORMAT\nSPEC_400 SPEC_500\nEND_DATA_FORMAT\nBEGIN_DATA\n0.25 0.75\nEND_DATA\n";
        Assert.Equal(0.75, Cgats.Read(new StringReader(Text), "x.sp")["1"][1]);
    }

    [Fact]
    public void A_catalogue_reads_back_exactly_and_meets_its_schema()
    {
        Material material = DemoData.Materials["Granary zirconia, grade 2"];
        Provenance provenance = new(DataOrigin.Invented, "simulated", MeasurementGeometry.DiffuseSpecularIncluded, "2026-11-25", 0.3, "for a test");
        MaterialCatalog catalog = new("demo",
        [
            new CatalogEntry(material, MaterialRole.Ceramic, provenance, "Granary zirconia", 2),
            new CatalogEntry(new Material("plain", AbsorptionSpectrum.Uniform(material.Grid, 0.1), ScatteringSpectrum.Uniform(material.Grid, 1), new RefractiveIndex(1.5, 4000)), MaterialRole.Glaze, provenance with { }),
        ]);
        using MemoryStream stream = new();
        catalog.Write(stream);

        JsonSchema schema = JsonSchema.FromText(File.ReadAllText(Repository.PathOf("docs", "schema", "material-catalog.schema.json")));
        EvaluationResults validity = schema.Evaluate(JsonNode.Parse(stream.ToArray()));
        Assert.True(validity.IsValid);

        stream.Position = 0;
        MaterialCatalog back = MaterialCatalog.Read(stream, "demo.json");
        Assert.Equal(catalog.Entries.Select(entry => (entry.Name, entry.Role, entry.Family, entry.Grade)), back.Entries.Select(entry => (entry.Name, entry.Role, entry.Family, entry.Grade)));
        Material read = back["Granary zirconia, grade 2"].Material;
        Assert.Equal(material.Absorption, read.Absorption);
        Assert.Equal(material.Scattering, read.Scattering);
        Assert.Equal(material.RefractiveIndex, read.RefractiveIndex);
        Assert.Equal(material.Uncertainty!.Correlation.ToArray(), read.Uncertainty!.Correlation.ToArray());
        Assert.Equal(material.Uncertainty.RelativeScale, read.Uncertainty.RelativeScale);
        Assert.Equal(new RefractiveIndex(1.5, 4000), back["plain"].Material.RefractiveIndex);
        Assert.Equal(provenance, back["plain"].Provenance);
        Assert.Single(back.Ceramics);
    }

    [Fact]
    public void Saving_replaces_a_file_as_a_whole()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".json");
        try
        {
            Material material = DemoData.Materials["Tern cement, opaque"];
            Provenance provenance = new(DataOrigin.Invented, "simulated", MeasurementGeometry.Internal, null, null);
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
            Thread.CurrentThread.CurrentCulture = new System.Globalization.CultureInfo("") { NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = "." } };
            SpectralTable table = SpectralCsv.Read(new StringReader("wavelength_nm,r\n400,0.25\n500,0.5\n"), "x.csv");
            Assert.Equal(0.25, table["r"][0]);
            Assert.Contains("0.25", ReflectanceText(0.25), StringComparison.Ordinal);
        }
        finally
        {
            Thread.CurrentThread.CurrentCulture = before;
        }

        static string ReflectanceText(double value) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => TwoFlux.Slab(-value, 1, 1)).Message;
    }

    [Fact]
    public void A_file_without_end_is_refused_before_it_fills_the_memory()
    {
        ExchangeException error = Assert.Throws<ExchangeException>(() => SpectralCsv.Read(new EndlessReader(), "big.csv"));
        Assert.Equal("big.csv: the file is longer than 16777216 characters.", error.Message);
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
