namespace CeramicOptics.Examples.ValidationReport;

/// <summary>The files of tests/reference/published; lines that begin with # tell where a file comes from.</summary>
internal sealed class PublishedFiles(string root)
{
    /// <summary>The rows of a file, without comments and heading.</summary>
    public IEnumerable<string[]> Rows(string file, char separator = ',') =>
        File.ReadLines(Path.Combine(root, "tests", "reference", "published", file))
            .Where(line => !line.StartsWith('#')).Skip(1).Select(line => line.Split(separator));
}
