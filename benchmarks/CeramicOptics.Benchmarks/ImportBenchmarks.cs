using System.Globalization;
using System.Text;
using BenchmarkDotNet.Attributes;
using CeramicOptics.Exchange;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// 1,000 readings at 31 wavelengths from text with semicolons and decimal commas, of which nothing is told beforehand.
/// The baseline cuts the same text at known marks and parses the numbers, unchecked.
/// </summary>
[MemoryDiagnoser]
public class ImportBenchmarks
{
    private readonly string _text = Text();

    [Benchmark(Baseline = true)]
    public double CutAndParse()
    {
        NumberFormatInfo comma = new() { NumberDecimalSeparator = "," };
        double sum = 0;
        foreach (string line in _text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1))
        {
            foreach (string cell in line.Split(';').Skip(1))
            {
                sum += double.Parse(cell, comma);
            }
        }

        return sum;
    }

    [Benchmark]
    public int ReadTable() => SpectralTable.Read(new StringReader(_text), "readings.csv").Names.Count;

    private static string Text()
    {
        StringBuilder text =
            new("name;" + string.Join(';', Enumerable.Range(0, 31).Select(i => 400 + (10 * i))) + "\n");
        for (int r = 0; r < 1000; r++)
        {
            text.Append(CultureInfo.InvariantCulture, $"reading {r};")
                .AppendJoin(';', Enumerable.Range(0, 31).Select(i => $"{20 + i},{r:000}")).Append('\n');
        }

        return text.ToString();
    }
}
