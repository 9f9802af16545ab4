using System.Reflection;
using System.Text.RegularExpressions;

namespace CeramicOptics.Tests.Design;

/// <summary>
/// The table of all functions in docs/native.md: rows, C++ and tests come from the header, the wrapper and the programs
/// that call them; what a function is in .NET is written by hand.
/// </summary>
public class NativeTableTests
{
    private const string Heading = "| C | .NET | C++ | tested in |\n|---|---|---|---|\n";

    private static readonly string[] Programs = ["check.c", "check.py", "compare/Program.cs"];

    /// <summary>CERAMICOPTICS_APPROVE=1 writes the table again; a new function then lacks its .NET cell.</summary>
    [Fact]
    public void Table_of_the_page_is_that_of_the_header()
    {
        string path = Repository.PathOf("docs", "native.md"), page = Text(path);
        Dictionary<string, string> dotNet = Regex.Matches(page, @"^\| `(ceramic_\w+)` \| (.*?) \|",
            RegexOptions.Multiline)
            .ToDictionary(row => row.Groups[1].Value, row => row.Groups[2].Value);
        string wrapper = Text(Repository.PathOf("src", "CeramicOptics.Native", "ceramic_optics.hpp"));
        Dictionary<string, string> programs = Programs.ToDictionary(
            name => name, name => Text(Repository.PathOf("tests", "native", name)));
        string rows = string.Concat(Functions().Select(function =>
        {
            string[] tested = [.. Programs.Where(name => Names(programs[name], function))];
            return $"| `{function}` | {dotNet.GetValueOrDefault(function, "")} | "
                + $"{(Names(wrapper, function) ? "yes" : "")} | {string.Join(", ", tested)} |\n";
        }));
        if (Environment.GetEnvironmentVariable("CERAMICOPTICS_APPROVE") == "1")
        {
            page = Regex.Replace(
                page, @"(## All functions\n\n).*?(?=\n[^|\n])", match => match.Groups[1].Value + Heading + rows,
                RegexOptions.Singleline);
            File.WriteAllText(path, page);
        }

        Assert.Contains(Heading + rows, page);
        Assert.All(Functions(), function => Assert.NotEqual("", dotNet.GetValueOrDefault(function, "")));
    }

    [Fact]
    public void Functions_of_the_header_are_those_that_the_library_exports()
    {
        IEnumerable<string> exported = Directory
            .EnumerateFiles(Repository.PathOf("src", "CeramicOptics.Native"), "*.cs")
            .SelectMany(file => Regex.Matches(Text(file), @"EntryPoint = ""(\w+)"""))
            .Select(found => found.Groups[1].Value);
        Assert.Equal(exported.Order(StringComparer.Ordinal), Functions().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_function_is_called_by_a_test()
    {
        string all = string.Concat(Programs.Select(name => Text(Repository.PathOf("tests", "native", name))));
        Assert.All(Functions(), function => Assert.True(Names(all, function), function));
    }

    /// <summary>What the table names in .NET exists.</summary>
    [Fact]
    public void Names_of_the_table_are_public()
    {
        HashSet<string> names = [.. typeof(LayerStack).Assembly.GetExportedTypes().SelectMany(type =>
            type.GetMembers(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static)
                .Select(member => $"{type.Name}.{member.Name}").Append(type.Name)), "IProgress", "CancellationToken"];
        string[] named =
        [
            .. Regex.Matches(Text(Repository.PathOf("docs", "native.md")), @"^\| `ceramic_\w+` \| (.*?) \|",
                RegexOptions.Multiline)
                .SelectMany(row => Regex.Matches(row.Groups[1].Value, "`(.*?)`").Select(name => name.Groups[1].Value)),
        ];
        Assert.NotEmpty(named);
        Assert.All(named, name => Assert.Contains(name, names));
    }

    // Functions that the library exports, in the order of the header; those that are inline are not.
    private static string[] Functions() =>
    [
        .. Regex.Matches(
            Text(Repository.PathOf("src", "CeramicOptics.Native", "ceramic_optics.h")),
            @"^u?int\d+_t (ceramic_\w+)\(", RegexOptions.Multiline).Select(match => match.Groups[1].Value),
    ];

    private static bool Names(string text, string function) => Regex.IsMatch(text, $@"\b{function}\b");

    private static string Text(string path) => File.ReadAllText(path).ReplaceLineEndings("\n");
}
