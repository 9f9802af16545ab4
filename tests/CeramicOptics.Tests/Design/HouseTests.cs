using System.Text.RegularExpressions;

namespace CeramicOptics.Tests.Design;

/// <summary>The list of folders in DEVELOPERS.md is complete, dependencies follow it, and its picture is the
/// code's.</summary>
public class HouseTests
{
    // Resources without a namespace.
    private const string Words = "Words";

    // The theories make the sideways response of a stack, which is evaluated by their own layers.
    private static readonly (string Folder, string Used)[] BothWays =
        [("Layers/TwoFlux", "Layers/Lateral"), ("Layers/Transport", "Layers/Lateral")];

    private static readonly string[] Listed = [.. ListedFolders()];

    [Fact]
    public void Every_folder_is_described()
    {
        string source = Repository.PathOf("src", "CeramicOptics");
        string[] folders = [.. Directory.EnumerateDirectories(source, "*", SearchOption.AllDirectories)
            .Select(folder => Path.GetRelativePath(source, folder).Replace('\\', '/'))
            .Where(folder => House.FloorOf(folder) is not ("bin" or "obj"))];
        Assert.Equal(folders.Order(StringComparer.Ordinal), Listed.Order(StringComparer.Ordinal));
        Assert.Equal(
            Listed.Where(folder => folder != Words).Order(StringComparer.Ordinal),
                House.Library.Folders.Where(folder => folder.Length > 0));
    }

    [Theory]
    [InlineData("src")]
    [InlineData("examples")]
    [InlineData("benchmarks")]
    [InlineData("tests")]
    public void Every_project_is_described(string under)
    {
        string text = File.ReadAllText(Repository.PathOf("DEVELOPERS.md"));
        Assert.All(
            Directory.EnumerateDirectories(Repository.PathOf(under)).Select(folder => Path.GetFileName(folder)!)
                .Where(name => name is not ("CeramicOptics" or "CeramicOptics.Tests")),
            name => Assert.True(
                text.Contains($"| {under}/{name} |", StringComparison.Ordinal)
                    || (under == "tests" && text.Contains($"| {name} |", StringComparison.Ordinal))
                    || text.Contains($"`{under}/{name}`", StringComparison.Ordinal), $"{under}/{name}"));
    }

    /// <summary>
    /// A folder uses those above it in the list; the head of a floor and its own folders may use each other.
    /// </summary>
    [Fact]
    public void Folders_use_only_those_above_them()
    {
        int seen = 0;
        foreach (string folder in House.Library.Folders.Where(folder => folder.Length > 0))
        {
            foreach (string used in House.Library.UsesOf(folder).Where(used => used.Length > 0))
            {
                bool isHead = House.FloorOf(folder) == used || House.FloorOf(used) == folder;
                bool isAbove = Array.IndexOf(Listed, used) < Array.IndexOf(Listed, folder);
                Assert.True(
                    isAbove || isHead || BothWays.Contains((folder, used)),
                    $"{folder} uses {used}: {House.Library.Witnesses(folder, used)}");
                seen++;
            }
        }

        Assert.True(seen > 100, $"only {seen} uses were read");
        Assert.All(BothWays, pair => Assert.Contains(pair.Used, House.Library.UsesOf(pair.Folder)));
    }

    /// <summary>The root stands under every folder; how an answer is written is named by the answers alone.</summary>
    [Fact]
    public void The_root_uses_no_folder() =>
        Assert.Equal(
            ["ReportConverter uses ResultJson"],
            House.Library.UsesOf("").SelectMany(used => House.Library.Witnesses("", used).Split(", "))
                .Order(StringComparer.Ordinal));

    /// <summary>CERAMICOPTICS_APPROVE=1 draws it again.</summary>
    [Fact]
    public void The_picture_is_drawn_from_the_code()
    {
        string path = Repository.PathOf("docs", "images", "house.svg");
        string drawn = HouseDrawing.Svg([.. Listed.Where(folder => folder != Words)], House.Library);
        if (Environment.GetEnvironmentVariable("CERAMICOPTICS_APPROVE") == "1")
        {
            File.WriteAllText(path, drawn);
        }

        Assert.Equal(File.ReadAllText(path).ReplaceLineEndings("\n"), drawn);
    }

    // The first list of DEVELOPERS.md: four blanks before a floor, six before a folder of it.
    private static IEnumerable<string> ListedFolders()
    {
        string floor = "";
        string text = File.ReadAllText(Repository.PathOf("DEVELOPERS.md")).ReplaceLineEndings("\n");
        foreach (Match line in Regex.Matches(
            text[..text.IndexOf("house.svg", StringComparison.Ordinal)], "^    (  )?([A-Z][A-Za-z]*) {2,}[^ ].*$",
                RegexOptions.Multiline))
        {
            bool isFloor = !line.Groups[1].Success;
            string name = line.Groups[2].Value;
            floor = isFloor ? name : floor;
            yield return isFloor ? name : $"{floor}/{name}";
        }
    }
}
