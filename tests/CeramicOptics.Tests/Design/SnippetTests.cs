using System.Reflection;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace CeramicOptics.Tests.Design;

/// <summary>
/// The C# blocks of a page are one program, which compiles, runs and prints what the page's text block says.
/// </summary>
public class SnippetTests
{
    private const string Usings = """
        global using System; global using System.Collections.Generic; global using System.IO; global using System.Linq;
        global using System.Threading; global using System.Threading.Tasks;
        """;

    // Shared, so that the compiler reads each assembly once for all pages.
    private static readonly MetadataReference[] References =
        [.. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Select(file => MetadataReference.CreateFromFile(file))];

    public static TheoryData<string> Pages =>
        [.. Directory.EnumerateFiles(Repository.PathOf("docs"), "*.md", SearchOption.AllDirectories).Prepend(
            Repository.PathOf("README.md"))
            .Where(path => Blocks(path, "csharp").Length > 0)
                .Select(path => Path.GetRelativePath(Repository.Root, path)).Order(StringComparer.Ordinal)];

    /// <summary>
    /// CERAMICOPTICS_APPROVE=1 writes what is printed into the page, to be read before it is committed.
    /// </summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public void Snippets_of_the_page_run_and_print_what_it_says(string page)
    {
        string path = Repository.PathOf(page), printed = Run(string.Join('\n', Blocks(path, "csharp")));
        if (Environment.GetEnvironmentVariable("CERAMICOPTICS_APPROVE") == "1")
        {
            File.WriteAllText(
                path,
                Regex.Replace(Text(path), "```text\n.*?```", _ => $"```text\n{printed}```", RegexOptions.Singleline));
        }

        string expected = Assert.Single(Blocks(path, "text"));
        Assert.NotEqual("", expected);
        Assert.Equal(expected, printed);
    }

    private static string Text(string path) => File.ReadAllText(path).ReplaceLineEndings("\n");

    private static string[] Blocks(string path, string language) =>
        [.. Regex.Matches(Text(path), $"^```{language}\n(.*?)^```",
            RegexOptions.Singleline | RegexOptions.Multiline).Select(match => match.Groups[1].Value)];

    private static string Run(string program)
    {
        // Usings may stand at the head of every block; a program wants them first.
        string[] lines = program.Split('\n');
        string ordered = string.Join('\n', lines.Where(IsUsing).Distinct().Concat(lines.Where(line => !IsUsing(line))));
        CSharpParseOptions version = new(LanguageVersion.Latest);
        CSharpCompilation compilation = CSharpCompilation.Create(
            "Snippets" + Guid.NewGuid().ToString("N"),
            [CSharpSyntaxTree.ParseText(ordered, version), CSharpSyntaxTree.ParseText(Usings, version)],
            References,
            new CSharpCompilationOptions(
                OutputKind.ConsoleApplication, nullableContextOptions: NullableContextOptions.Enable));
        using MemoryStream assembly = new();
        Assert.Empty(
            compilation.Emit(assembly).Diagnostics.Where(
                diagnostic => diagnostic.Severity >= DiagnosticSeverity.Warning)
                .Select(diagnostic => diagnostic.ToString()));
        using StringWriter output = new() { NewLine = "\n" };
        TextWriter console = Console.Out;

        // Pages name files by their path in the repository.
        Environment.CurrentDirectory = Repository.Root;
        Console.SetOut(output);
        try
        {
            MethodInfo main = Assembly.Load(assembly.ToArray()).EntryPoint!;
            main.Invoke(null, main.GetParameters().Length == 0 ? [] : [Array.Empty<string>()]);
        }
        finally
        {
            Console.SetOut(console);
        }

        return output.ToString();
    }

    private static bool IsUsing(string line) => Regex.IsMatch(line, @"^using [\w.]+;$");
}
