using System.Globalization;

namespace CeramicOptics.Mutation;

/// <summary>One small fault in one place of the library.</summary>
internal sealed record Mutant(int Id, string Group, string File, int Line, string Original, string Mutated)
{
    public static Mutant Parse(string line)
    {
        string[] part = line.Split('\t');
        return new(
            int.Parse(part[0], CultureInfo.InvariantCulture), part[1], part[2],
            int.Parse(part[3], CultureInfo.InvariantCulture), part[4], part[5]);
    }

    public override string ToString() =>
        string.Join('\t', Id, Group, File, Line, OneLine(Original), OneLine(Mutated));

    private static string OneLine(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
