using CeramicOptics.Exchange;

namespace CeramicOptics.Tests.Unit;

public class WriterTests
{
    private static readonly SpectralTable Spectra = SpectralTable.Read(
        Repository.PathOf("tests", "reference", "spectra.csv"));

    public static TheoryData<string> Formats => ["csv", "sp", "cxf"];

    [Theory]
    [MemberData(nameof(Formats))]
    public void Tables_read_back_exactly(string format)
    {
        Random random = new(4);
        WavelengthGrid grid = WavelengthGrid.Range(380, 730, 10);
        SpectralTable table = SpectralTable.Create(
            "made",
            new[] { "over white", "twice", "a, b", "twice", "G&B <2>", "brown – tooth" }.Select(name =>
                new KeyValuePair<string,
            ReflectanceSpectrum>(
                name,
                new ReflectanceSpectrum(grid, [.. Enumerable.Range(0, grid.Count).Select(_ => random.NextDouble())]))),
            new Dictionary<string, string> { ["material"] = "a \"quoted\" name", ["thickness_mm"] = "0.8" });
        SpectralTable back = Read(format, Write(format, table));
        Assert.Equal(table.Names, back.Names);
        Assert.Equal(table.Grid, back.Grid);
        Assert.Equal(2, back.Replicates("twice").Count);
        foreach (string name in table.Names)
        {
            Assert.Equal(table.Replicates(name), back.Replicates(name));
        }

        Assert.DoesNotContain(back.Assumptions, one => one.Kind is not ImportAssumptionKind.Replicates);
        if (format != "cxf")
        {
            Assert.Equal("a \"quoted\" name", back.Metadata["material"]);
            Assert.Equal("0.8", back.Metadata["thickness_mm"]);
        }
    }

    [Fact]
    public void Colours_read_back_exactly()
    {
        ColorTable table = new(
            "made", Colorimeter.D65TenDegree,
            [new("neck & <root>", new Lab(61.25, 4.1, 1.0 / 3)), new("edge", new Lab(72, -0.5, 8))]);
        StringWriter text = new();
        Cxf3.WriteColors(table, text);
        ColorTable back = Cxf3.ReadColors(new StringReader(text.ToString()), "made.cxf");
        Assert.Equal(table.Names, back.Names);
        Assert.Equal("D65/10°", back.Under.Name);
        Assert.All(table.Names, name => Assert.Equal(table[name], back[name]));
        Assert.Contains("reading 'body' is missing", Assert.Throws<ExchangeException>(() => back["body"]).Message);
    }

    [Theory]
    [InlineData("<cc:L>50</cc:L>", "<cc:L>fifty</cc:L>", "object 'edge': L of ColorCIELab must be a number.")]
    [InlineData("<cc:L>50</cc:L>", "", "object 'edge': L of ColorCIELab must be a number.")]
    [InlineData(
        "<cc:Illuminant>D65</cc:Illuminant>", "", "object 'edge': its colour specification gives no Illuminant.")]
    [InlineData(">D65<", ">candle<", "Unknown illuminant 'candle'")]
    [InlineData(">2_Degree<", ">3_Degree<", "Unknown observer '3_Degree'; allowed: 2_Degree, 10_Degree.")]
    [InlineData("<cc:L>50</cc:L>", "<cc:L>500</cc:L>", "L* of 'edge' must be in [0, 110] but is 500.")]
    [InlineData("ColorCIELab", "ColorCIEXYZ", "no object has a ColorCIELab.")]
    public void Faulty_colours_are_named(string good, string faulty, string message)
    {
        StringWriter text = new();
        Cxf3.WriteColors(new ColorTable("made", Colorimeter.D65TwoDegree, [new("edge", new Lab(50, 1, 2))]), text);
        Assert.Contains(good, text.ToString());
        Assert.Contains(
            message,
            Assert.Throws<ExchangeException>(
                () => Cxf3.ReadColors(new StringReader(text.ToString().Replace(good, faulty)), "x.cxf")).Message);
    }

    [Fact]
    public void Observers_without_a_name_in_the_format_are_refused()
    {
        WavelengthGrid grid = WavelengthGrid.Range(380, 780, 5);
        double[] flat = [.. Enumerable.Repeat(1.0, grid.Count)];
        Observer own = new("night shift", grid, flat, flat, flat);
        foreach (Observer observer in new[] { Observer.Cie2015TwoDegree, Observer.Cie2015TenDegree, own })
        {
            ColorTable table = new("made", new Colorimeter(observer, Illuminant.D65), [new("edge", new Lab(50, 1, 2))]);
            StringWriter text = new();
            string message = Assert.Throws<ArgumentException>(() => Cxf3.WriteColors(table, text)).Message;
            Assert.Contains($"'{observer.Name}'", message);
            Assert.Contains("10_Degree", message);
            Assert.Empty(text.ToString());
        }
    }

    /// <summary>
    /// argyll's cxf2ti3 read written_colors.cxf; what it made of it is what was written, to its printed digits.
    /// </summary>
    [Fact]
    public void Another_program_reads_the_colours_that_are_written()
    {
        ColorTable table = new(
            "written", Colorimeter.D65TwoDegree,
            [new("neck", new Lab(61.25, 4.1, 17.5)), new("body", new Lab(68.5, 1.75, 14.25)),
            new("edge", new Lab(72, -0.5, 8))]);
        StringWriter text = new();
        Cxf3.WriteColors(table, text);
        Assert.Equal(
            File.ReadAllText(Repository.PathOf("tests", "reference", "written_colors.cxf")).ReplaceLineEndings("\n"),
            text.ToString());
        string[][] rows = [.. File.ReadAllLines(Repository.PathOf("tests", "reference", "argyll_of_written_colors.txt"))
            .SkipWhile(line => line != "BEGIN_DATA").Skip(1).TakeWhile(line => line != "END_DATA")
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries))];
        Assert.Equal(3, rows.Length);
        for (int i = 0; i < 3; i++)
        {
            Lab written = table[table.Names[i]];
            double[] read = [.. rows[i].TakeLast(3).Select(Repository.Number)];
            Assert.Equal([written.L, written.A, written.B], read);
        }
    }

    /// <summary>
    /// The texts below were read by argyll (tests/reference/README.md); what it made of them is what was written, to
    /// its printed digits.
    /// </summary>
    [Theory]
    [InlineData("sp", "written.sp", "argyll_of_written_sp.txt")]
    [InlineData("cxf", "written.cxf", "argyll_of_written_cxf.txt")]
    public void Another_program_reads_what_is_written(string format, string written, string understood)
    {
        SpectralTable table = SpectralTable.Create(
            "written",
            Spectra.Names.Take(5).Select(name => new KeyValuePair<string, ReflectanceSpectrum>(name, Spectra[name])),
            new Dictionary<string, string> { ["note"] = "made for a check by \"another\" program" });
        Assert.Equal(
            File.ReadAllText(Repository.PathOf("tests", "reference", written)).ReplaceLineEndings("\n"),
            Write(format, table));

        SpectralTable other = SpectralTable.Read(Repository.PathOf("tests", "reference", understood));
        Assert.Equal(table.Grid, other.Grid);
        Assert.Equal(5, other.Names.Count);
        for (int k = 0; k < 5; k++)
        {
            for (int i = 0; i < table.Grid.Count; i++)
            {
                Assert.Equal(table[table.Names[k]][i], other[other.Names[k]][i], 1e-5);
            }
        }
    }

    [Fact]
    public void Hostile_xml_is_refused()
    {
        ExchangeException Refused(string xml) =>
            Assert.Throws<ExchangeException>(() => SpectralTable.Read(new StringReader(xml), "x.cxf"));
        Assert.Contains(
            "DTD is prohibited", Refused("<!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/passwd\">]><a>&e;</a>").Message,
            StringComparison.Ordinal);
        Assert.Equal(
            "x.cxf, line 1: elements are nested more than 32 deep.",
            Refused(string.Concat(Enumerable.Repeat("<a>", 10000))
                + string.Concat(Enumerable.Repeat("</a>", 10000))).Message);
        Assert.Equal("x.cxf: the root element is 'a', not CxF of CxF3.", Refused("<a/>").Message);
        Assert.StartsWith("x.cxf, line 2:", Refused("<a>\n<b>").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Start_and_increment_may_stand_in_the_colour_specification()
    {
        const string Xml = """
            <CxF xmlns="http://colorexchangeformat.com/CxF3-core"><Resources><ObjectCollection>
            <Object ObjectType="Target" Id="t1"><ColorValues><ColorCIELab ColorSpecification="s"
              ><L>50</L><A>0</A><B>0</B></ColorCIELab></ColorValues></Object>
            <Object ObjectType="Target" Name="tooth" Id="t2"><ColorValues><ReflectanceSpectrum
              ColorSpecification="s">0.1 0.2
              0.3</ReflectanceSpectrum></ColorValues></Object></ObjectCollection>
            <ColorSpecificationCollection><ColorSpecification Id="s"><MeasurementSpec>
            <WavelengthRange StartWL="400" Increment="20"/></MeasurementSpec></ColorSpecification>
            </ColorSpecificationCollection></Resources></CxF>
            """;
        SpectralTable table = SpectralTable.Read(new StringReader(Xml), "x.cxf");
        Assert.Equal(["tooth"], table.Names);
        Assert.Equal(new WavelengthGrid(400, 20, 3), table.Grid);
        Assert.Equal([0.1, 0.2, 0.3], table["tooth"].Values.ToArray());
    }

    [Fact]
    public void Names_and_keys_that_a_file_cannot_carry_are_refused()
    {
        ReflectanceSpectrum grey = ReflectanceSpectrum.Uniform(new WavelengthGrid(400, 10, 3), 0.5);
        Assert.Equal(
            "The name 'a\nb' cannot be written to a file.",
            Assert.Throws<ArgumentException>(() => SpectralTable.Create("x", [new("a\nb", grey)])).Message);
        Assert.Equal(
            "The metadata key 'Two Words' cannot be written to a file.",
            Assert.Throws<ArgumentException>(
                () => SpectralTable.Create("x", [new("a", grey)], [new("Two Words", "x")])).Message);
    }

    private static string Write(string format, SpectralTable table)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        Action<SpectralTable,
            TextWriter> write = format switch { "csv" => SpectralCsv.Write, "sp" => Cgats.Write, _ => Cxf3.Write };
        write(table, writer);
        return writer.ToString().Replace("utf-16", "utf-8", StringComparison.Ordinal);
    }

    private static SpectralTable Read(string format, string text) => format switch
    {
        "csv" => SpectralTable.Read(new StringReader(text), "x.csv"),
        "sp" => SpectralTable.Read(new StringReader(text), "x.sp"),
        _ => SpectralTable.Read(new StringReader(text), "x.cxf"),
    };
}
