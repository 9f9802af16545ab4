using System.Diagnostics;
using System.Globalization;
using System.Text;
using CeramicOptics.Exchange;

namespace CeramicOptics.Tests.Unit;

/// <summary>Files as instruments and spreadsheets write them, read without a word about their form.</summary>
public class ImportTests
{
    private static readonly string[] Readings = ["over black", "over white", "white tile"];

    // Written by make_exports.py, not by the library.
    private static readonly double[][] Truth = [.. File.ReadLines(Repository.PathOf("tests", "exports", "truth.csv"))
        .Skip(1).Select(line => line.Split(',').Select(Repository.Number).ToArray())];

    public static TheoryData<string, string, string> Exports => new()
    {
        {
            "comma-down.csv", "comma, decimal point, wavelengths down, headings in line 6, 0 to 1", "Scale"
        },
        {
            "semicolon-across.csv",
            "semicolon, decimal comma, wavelengths across, headings in line 4, percent",
            "ColumnsNotUsed, Encoding, Scale, Replicates, Replicates"
        },
        {
            "tab-falling.txt",
            "tab, decimal point, wavelengths down, headings in line 2, percent, falling wavelengths",
            "UnitRow, LinesNotUsed, WavelengthsTurned"
        },
        {
            "pairs.csv",
            "comma, decimal point, wavelengths down, headings in line 2, percent, falling wavelengths",
            "LinesNotUsed, WavelengthsTurned"
        },
        {
            "list.csv", "comma, decimal point, one value a row, headings in line 1, percent", "Replicates, Replicates"
        },
        { "blanks.txt", "space, decimal point, wavelengths down, no headings, 0 to 1", "NoHeadings, Scale" },
        { "spreadsheet.txt", "tab, decimal comma, wavelengths down, headings in line 1, 0 to 1", "Scale" },
        {
            "quoted.csv", "comma, decimal comma, wavelengths across, headings in line 1, 0 to 1",
            "ColumnsNotUsed, Scale"
        },
        {
            "replicates-cgats.txt", "space, decimal comma, wavelengths across, headings in line 9, percent",
            "ColumnsNotUsed, Replicates, Replicates"
        },
        { "objects.cxf", "", "Replicates, Replicates" },
    };

    [Theory]
    [MemberData(nameof(Exports))]
    public void An_export_is_read_as_it_is(string file, string dialect, string assumed)
    {
        SpectralTable table = SpectralTable.Read(Repository.PathOf("tests", "exports", file));
        Assert.Equal(dialect, table.Dialect?.ToString() ?? "");
        Assert.Equal(assumed, string.Join(", ", table.Assumptions.Select(one => one.Kind)));
        Assert.Equal(WavelengthGrid.Range(400, 700, 10), table.Grid);
        Assert.Equal(3, table.Names.Count);
        Assert.All(table.Assumptions, one => Assert.Matches("[a-z0-9].*[.]$", one.ToString()));
        for (int k = 0; k < 3; k++)
        {
            string expected = file switch
            {
                "blanks.txt" => $"column {k + 2}", "quoted.csv" => $"{Readings[k]}, disc of 0,80 mm", _ => Readings[k],
            };
            Assert.Equal(expected, table.Names[k]);
            for (int i = 0; i < Truth.Length; i++)
            {
                Assert.Equal(table.Grid[i], Truth[i][0]);
                Assert.Equal(Truth[i][k + 1], table[expected][i], 1e-12);
            }
        }
    }

    [Fact]
    public void Metadata_that_is_not_known_is_kept()
    {
        SpectralTable Read(string file) => SpectralTable.Read(Repository.PathOf("tests", "exports", file));
        Assert.Equal("J. Doe", Read("comma-down.csv").Metadata["operator"]);
        Assert.Equal("6", Read("comma-down.csv").Metadata["aperture__mm"]);
        Assert.Equal("Tischgerät, Öffnung 8 mm", Read("semicolon-across.csv").Metadata["ger_t"]);
        Assert.Equal("8 mm", Read("replicates-cgats.txt").Metadata["aperture"]);
        Assert.Equal("invented data", Read("objects.cxf").Metadata["description"]);
        Assert.Equal("Scan of invented specimens", Read("tab-falling.txt").Metadata["remark"]);
    }

    [Fact]
    public void Replicates_keep_their_order()
    {
        SpectralTable table = SpectralTable.Read(Repository.PathOf("tests", "exports", "list.csv"));
        IReadOnlyList<ReflectanceSpectrum> replicates = table.Replicates("over white");
        Assert.Equal([0.4437, 0.4444, 0.4436], replicates.Select(one => Math.Round(one[0], 10)));
        Assert.Single(table.Replicates("white tile"));
        Assert.Contains(
            "reading 'tile' is missing", Assert.Throws<ExchangeException>(() => table.Replicates("tile")).Message);
    }

    /// <summary>
    /// The curves of make_exports.py are smooth; between readings 3 nm apart a cubic is good to 1e-5 and the digits.
    /// </summary>
    [Fact]
    public void Unequally_spaced_readings_are_brought_to_a_grid_on_request()
    {
        string path = Repository.PathOf("tests", "exports", "bar-uneven.txt");
        Assert.Contains(
            "give the grid for resampling (ImportOptions.Grid)",
            Assert.Throws<ExchangeException>(() => SpectralTable.Read(path)).Message);
        SpectralTable table = SpectralTable.Read(
            path, new ImportOptions { Grid = WavelengthGrid.Range(400, 660, 10) });
        Assert.Equal("MonotoneCubic", Assert.Single(
            table.Assumptions, one => one.Kind == ImportAssumptionKind.Resampled).Text.Split(' ')[^1]
                .TrimEnd('.', ')'));
        for (int i = 0; i < table.Grid.Count; i++)
        {
            Assert.Equal(Truth[i][1], table["over black"][i], 1e-4);
            Assert.Equal(Truth[i][2], table["over white"][i], 1e-4);
        }
    }

    [Fact]
    public void Equally_spaced_readings_are_brought_to_a_grid_by_the_named_method()
    {
        string path = Repository.PathOf("tests", "exports", "comma-down.csv");
        WavelengthGrid fine = WavelengthGrid.Range(400, 700, 5);
        SpectralTable whole = SpectralTable.Read(path);
        foreach (InterpolationMethod method in new[] { InterpolationMethod.Sprague, InterpolationMethod.MonotoneCubic })
        {
            SpectralTable table = SpectralTable.Read(path, new ImportOptions { Grid = fine, Interpolation = method });
            Assert.Equal(whole["over white"].Resample(fine, method), table["over white"]);
        }
    }

    /// <summary>What the file does not say may be said; what is said takes precedence.</summary>
    [Fact]
    public void A_given_dialect_takes_precedence()
    {
        SpectralTable Read(string text, TableDialect dialect) =>
            SpectralTable.Read(new StringReader(text), "x.csv", new ImportOptions { Dialect = dialect });

        // A light trap in percent.
        const string Dark = "nm;trap\n400;0,31\n410;0,32\n";
        SpectralTable trap = Read(Dark, new TableDialect { FullScale = 100 });
        Assert.Equal(0.0031, trap["trap"][0], 1e-15);
        Assert.Empty(trap.Assumptions);
        Assert.Equal(0.31, Read(Dark, new TableDialect())["trap"][0]);

        // Whole numbers, of which nothing tells that the comma separates.
        SpectralTable whole = Read("nm,grey\n400,50\n410,51\n", new TableDialect { Separator = FieldSeparator.Comma });
        Assert.Equal(0.51, whole["grey"][1]);

        // Wavelengths with decimals, a decimal comma and blanks between: the comma does not separate.
        Assert.Equal(0.6, Read("400,5 0,5\n401,5 0,6\n", new TableDialect())["column 2"][1]);

        // Two columns that might be names.
        const string Across = "lot;name;400;410\nfirst;grey;50;51\nsecond;grey;52;53\n";
        Assert.Equal(["grey"], Read(Across, new TableDialect()).Names);
        Assert.Equal(
            ["first", "second"],
            Read(Across, new TableDialect { Columns = [new("Lot", ColumnRole.Name)] }).Names);
        Assert.Equal(
            ["410 nm"],
            Read(
                "nm;400 nm;410 nm\n400;50;51\n410;52;53\n",
                new TableDialect { Layout = TableLayout.WavelengthsDown,
                    Columns = [new("400 nm", ColumnRole.NotUsed)] })
                .Names);
        Assert.Contains(
            "fall, not as the given dialect says",
            Assert.Throws<ExchangeException>(
                () => Read("nm;a\n410;50\n400;52\n", new TableDialect { WavelengthsFall = false })).Message);
    }

    /// <summary>
    /// Long files that are all one thing: many lines of remarks, many columns, many wavelengths, one long line.
    /// </summary>
    [Fact]
    public void Long_files_are_read_or_refused_in_time()
    {
        const int Many = 200_000;
        string[] files =
        [
            string.Concat(Enumerable.Repeat("remark: x\n", Many)) + "nm;a\n400;0,1\n410;0,2\n",
            string.Concat(Enumerable.Repeat("nm,%R,", Many / 10)) + "\n"
                + string.Concat(Enumerable.Repeat("410,50,", Many / 10)) + "\n"
                + string.Concat(Enumerable.Repeat("400,50,", Many / 10)) + "\n",
            "nm;a\n" + string.Concat(Enumerable.Range(0, Many).Select(
                i => FormattableString.Invariant($"{400 + (i * 0.01) + (i > Many / 2 ? 0.5 : 0)};0.5\n"))),
            new string('1', 1_000_000), new string(';', 1_000_000), new string('"', 1_000_001),
            "nm;a;b\n" + string.Concat(Enumerable.Repeat("400;", Many)),
            string.Concat(Enumerable.Repeat("x;nm;R\n", Many)),
        ];
        foreach (string file in files)
        {
            Stopwatch watch = Stopwatch.StartNew();
            _ = Record.Exception(() => SpectralTable.Read(new StringReader(file), "x")) is null or ExchangeException
                ? true
                : throw new InvalidOperationException(file[..20]);
            Assert.True(watch.Elapsed.TotalSeconds < 5, $"{file[..20]}: {watch.Elapsed.TotalSeconds} s");
        }
    }

    /// <summary>
    /// Every table of numbers can be written in every dialect: each comes back, whatever separator, mark, scale,
    /// layout and direction.
    /// </summary>
    [Fact]
    public void Every_dialect_comes_back()
    {
        Random random = new(16);
        int count = 0;
        foreach (string separator in new[] { "\t", ";", ",", " | ", "  " })
        {
            foreach (char mark in separator == "," ? "." : ".,")
            {
                foreach (int scale in new[] { 1, 100 })
                {
                    foreach (bool falls in new[] { false, true })
                    {
                        foreach (TableLayout layout in Enum.GetValues<TableLayout>())
                        {
                            double[][] values = [.. Enumerable.Range(0, 3).Select(
                                _ => Enumerable.Range(0, 16).Select(
                                    _ => Math.Round(0.2 + (0.7 * random.NextDouble()), 4)).ToArray())];
                            string text = Written(values, separator, mark, scale, falls, layout);
                            SpectralTable table = SpectralTable.Read(new StringReader(text), "x.txt");
                            Assert.Equal(layout, table.Dialect!.Layout);
                            Assert.Equal((scale, falls),
                                ((int)table.Dialect.FullScale!, table.Dialect.WavelengthsFall));
                            for (int k = 0; k < 3; k++)
                            {
                                Assert.Equal(values[k], table[$"reading{k}"].Values.ToArray(), (a, b) =>
                                    Math.Abs(a - b) < 1e-12);
                            }

                            count++;
                        }
                    }
                }
            }
        }

        Assert.Equal(9 * 2 * 2 * 3, count);
    }

    /// <summary>
    /// 1,000 readings at 31 wavelengths take about 10 ms on one core; thirty times that is allowed here, where other
    /// tests run at the same time.
    /// </summary>
    [Fact]
    public void A_thousand_readings_are_read_at_once()
    {
        StringBuilder text =
            new("name;" + string.Join(";", Enumerable.Range(0, 31).Select(i => 400 + (10 * i))) + "\n");
        for (int r = 0; r < 1000; r++)
        {
            text.Append(CultureInfo.InvariantCulture, $"reading {r};")
                .AppendJoin(';', Enumerable.Range(0, 31).Select(i => $"{20 + i},{r:000}")).Append('\n');
        }

        string file = text.ToString();
        double best = double.PositiveInfinity;
        for (int i = 0; i < 5; i++)
        {
            Stopwatch watch = Stopwatch.StartNew();
            Assert.Equal(1000, SpectralTable.Read(new StringReader(file), "x.csv").Names.Count);
            best = Math.Min(best, watch.Elapsed.TotalMilliseconds);
        }

        Assert.True(best < 300, $"{best} ms");
    }

    private static string Written(
        double[][] values, string separator, char mark, int scale, bool falls, TableLayout layout)
    {
        int[] order = [.. Enumerable.Range(0, 16)];
        order = falls ? [.. order.Reverse()] : order;
        string Number(double value) => Math.Round(value * scale, 2 + (scale == 1 ? 2 : 0))
            .ToString(scale == 1 ? "0.0000" : "0.00", CultureInfo.InvariantCulture).Replace('.', mark);
        string Line(params IEnumerable<string> cells) => string.Join(separator, cells) + "\n";
        return layout switch
        {
            TableLayout.WavelengthsDown => Line(["nm", "reading0", "reading1", "reading2"]) + string.Concat(
                order.Select(i => Line([$"{400 + (20 * i)}", .. values.Select(one => Number(one[i]))]))),
            TableLayout.WavelengthsAcross => Line(["name", .. order.Select(i => $"{400 + (20 * i)}")]) + string.Concat(
                values.Select((one, k) => Line([$"reading{k}", .. order.Select(i => Number(one[i]))]))),
            _ => Line(["sample", "wavelength", "R"]) + string.Concat(values.SelectMany(
                (one, k) => order.Select(i => Line([$"reading{k}", $"{400 + (20 * i)}", Number(one[i])])))),
        };
    }
}
