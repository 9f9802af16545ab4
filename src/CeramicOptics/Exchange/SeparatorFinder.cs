namespace CeramicOptics.Exchange;

/// <summary>Finds separator and decimal mark of a table from its text.</summary>
/// <remarks>
/// Each pair is tried on the first lines; the one under which most fields are numbers is taken. A line counts when at
/// least two of its fields are numbers, because one number stands in many a line of remarks.
/// </remarks>
internal static class SeparatorFinder
{
    private const int SampleLength = 64 * 1024;

    /// <summary>All separators, in the order in which they are preferred.</summary>
    public static IReadOnlyList<FieldSeparator> Separators { get; } =
        [FieldSeparator.Tab, FieldSeparator.Semicolon, FieldSeparator.Comma, FieldSeparator.Bar, FieldSeparator.Space];

    private static readonly DecimalMark[] Marks = [DecimalMark.Point, DecimalMark.Comma];

    public static TableDialect Find(string[] lines, string source, TableDialect wish)
    {
        string[] sample = Sample(lines);
        (FieldSeparator, DecimalMark) best = default;
        int most = 0;
        foreach (FieldSeparator separator in Separators.Where(one => (wish.Separator ?? one) == one))
        {
            foreach (DecimalMark mark in Marks.Where(one => (wish.DecimalMark ?? one) == one))
            {
                int count = Count(sample, separator, mark);
                (best, most) = count > most ? ((separator, mark), count) : (best, most);
            }
        }

        return most > 0
            ? wish with { Separator = best.Item1, DecimalMark = best.Item2 }
            : throw new ExchangeException(
                $"{source}: no line holds two numbers. Tried: {Words(Separators, wish.Separator)} between fields "
                    + $"and decimal {Words(Marks, wish.DecimalMark)}; the first line is "
                    + $"'{(sample.Length == 0 ? "" : sample[0].Substring(0, Math.Min(60, sample[0].Length)))}'.");
    }

    private static string Words<T>(IEnumerable<T> all, T? wish)
        where T : struct, Enum =>
        string.Join(", ", all.Where(one => wish is null || one.Equals(wish)).Select(
            one => one.ToString().ToLowerInvariant()));

    private static int Count(string[] sample, FieldSeparator separator, DecimalMark mark)
    {
        int count = 0;
        foreach (string line in sample)
        {
            int inLine = 0, spoilt = 0;
            foreach (string cell in Fields.Split(line, separator) ?? [])
            {
                bool isNumber = Cell.IsNumber(cell, mark) || Cell.HeadingWavelength(cell, mark) is not null;
                inLine += isNumber ? 1 : 0;
                spoilt += !isNumber && Cell.LooksLikeNumber(cell) ? 1 : 0;
            }

            count += inLine >= 2 ? Math.Max(1, inLine - spoilt) : 0;
        }

        return count;
    }

    private static string[] Sample(string[] lines)
    {
        List<string> sample = [];
        int length = 0;
        foreach (string line in lines)
        {
            if (line.Length > 0 && line[0] != '#' && length < SampleLength)
            {
                sample.Add(line.Length > SampleLength ? line.Substring(0, SampleLength) : line);
                length += sample[sample.Count - 1].Length;
            }
        }

        return [.. sample];
    }
}
