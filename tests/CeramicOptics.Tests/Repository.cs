using System.Globalization;

namespace CeramicOptics.Tests;

/// <summary>Files of the repository that tests read.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>Rows of a comma-separated file of tests/reference, without its heading.</summary>
    public static IEnumerable<string[]> ReferenceRows(string file) =>
        File.ReadLines(PathOf("tests", "reference", file)).Skip(1).Select(line => line.Split(','));

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CeramicOptics.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException(
            $"No CeramicOptics.sln above {AppContext.BaseDirectory}.");
    }
}
