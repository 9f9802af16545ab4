namespace CeramicOptics.Exchange;

/// <summary>
/// Metadata that the library does not know: kept, unless it must be a mistyped form of what it knows.
/// </summary>
internal static class KeyCheck
{
    // Short words are near to many others; only longer ones tell a slip.
    private const int ShortestSlip = 5, LongWord = 9;

    /// <summary>Keys that are not known, those of the format itself left out.</summary>
    /// <exception cref="ExchangeException">A key is one or two letters away from a known one.</exception>
    public static string[] Unknown(SpectralTable table, string[] known, string? prefix = null)
    {
        string[] unknown = [.. table.Metadata.Keys.Where(key => Array.IndexOf(known, key) < 0
            && !Cgats.IsOwn(key) && (prefix is null || !key.StartsWith(prefix, StringComparison.Ordinal)))];
        foreach (string key in unknown)
        {
            string? meant = Array.Find(known, word => word.Length >= ShortestSlip && !table.Metadata.ContainsKey(word)
                && Distance(key, word) <= (word.Length < LongWord ? 1 : 2));
            if (meant is not null)
            {
                throw new ExchangeException(
                    $"{table.Source}: metadata '{key}' is unknown; is '{meant}' meant?");
            }
        }

        return unknown;
    }

    // Levenshtein 1966: letters to insert, remove or change; 99 where the lengths alone are too different.
    private static int Distance(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 2)
        {
            return 99;
        }

        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int above = row[j];
                row[j] = Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }

        return row[b.Length];
    }
}
