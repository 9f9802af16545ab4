using System.Globalization;
using System.Reflection;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace CeramicOptics.Mutation;

/// <summary>
/// The library with all sampled faults inside, each asleep until its number is that of <c>Fault.Active</c>.
/// </summary>
internal sealed class Library(string root)
{
    private const string Switch = "global::CeramicOptics.Fault.On(";

    private const string Source = """
        namespace CeramicOptics;
        public static class Fault
        {
            public static int Active = -1;
            public static bool[]? Seen;
            public static bool On(int id)
            {
                if (Seen is not null) { Seen[id] = true; }
                return Active == id;
            }
        }
        """;

    private static readonly CSharpParseOptions Options = new(
        LanguageVersion.CSharp14, preprocessorSymbols: ["NET", "NET8_0_OR_GREATER", "NET10_0_OR_GREATER"]);

    private readonly string folder = Path.Combine(root, "src", "CeramicOptics");

    /// <summary>Writes the library; returns the mutants that compile.</summary>
    /// <param name="groups">Name and folders of each group.</param>
    /// <param name="perGroup">Mutants a group; drawn without replacement from all that are possible.</param>
    /// <param name="seed">Seed of the draw.</param>
    /// <param name="target">Path of the assembly.</param>
    public List<Mutant> Write(
        IEnumerable<(string Name, string[] Folders)> groups, int perGroup, int seed, string target)
    {
        Dictionary<string, SyntaxTree> trees = Directory.GetFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(path => !path.Contains("/obj/") && !path.Contains("/bin/")).Order(StringComparer.Ordinal)
            .ToDictionary(path => path, path => CSharpSyntaxTree.ParseText(File.ReadAllText(path), Options, path));
        Dictionary<SyntaxNode, List<Mutant>> drawn = [];
        int id = 0;
        foreach ((string name, string[] folders) in groups)
        {
            (SyntaxNode Node, string Text)[] all = [.. trees.Where(tree => folders.Any(
                part => Path.GetRelativePath(folder, tree.Key).StartsWith(part + "/", StringComparison.Ordinal)))
                .SelectMany(tree => tree.Value.GetRoot().DescendantNodes())
                .SelectMany(node => Faults.Of(node).Select(text => (node, text)))];
            new Random(seed).Shuffle(all);
            foreach ((SyntaxNode node, string text) in all.Take(perGroup))
            {
                int line = node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;
                string file = Path.GetRelativePath(folder, node.SyntaxTree.FilePath);
                (drawn.TryGetValue(node, out var list) ? list : drawn[node] = []).Add(
                    new Mutant(id++, name, file, line, node.ToString(), text));
            }

            Console.WriteLine($"{name}: {Math.Min(perGroup, all.Length)} of {all.Length} possible mutants");
        }

        HashSet<int> refused = [];
        for (int round = 0; round < 20; round++)
        {
            CSharpCompilation compilation = Compilation(trees, drawn, refused);
            Diagnostic[] errors;
            using (FileStream stream = File.Create(target))
            {
                errors = [.. compilation.Emit(stream, manifestResources: Resources()).Diagnostics
                    .Where(d => d.Severity == DiagnosticSeverity.Error)];
            }

            if (errors.Length == 0)
            {
                Console.WriteLine($"{refused.Count} do not compile");
                return [.. drawn.Values.SelectMany(list => list).Where(m => !refused.Contains(m.Id))
                    .OrderBy(m => m.Id)];
            }

            // An error inside a mutant is that mutant's; only where there is none, all of the member are left out.
            SyntaxNode[] places = [.. errors.Select(
                error => error.Location.SourceTree!.GetRoot().FindNode(error.Location.SourceSpan))];
            SyntaxNode[] faulty = [.. places.SelectMany(at => at.AncestorsAndSelf().Where(IsSwitch).Take(1))];
            foreach (SyntaxNode near in faulty.Length > 0
                ? faulty.AsEnumerable()
                : places.Select(at => at.AncestorsAndSelf().OfType<MemberDeclarationSyntax>().First()))
            {
                refused.UnionWith(near.DescendantNodes().OfType<InvocationExpressionSyntax>()
                    .Where(call => call.ToString().StartsWith(Switch, StringComparison.Ordinal))
                    .Select(call => int.Parse(call.ArgumentList.Arguments[0].ToString(), CultureInfo.InvariantCulture))
                    .Take(faulty.Length > 0 ? 1 : int.MaxValue));
            }

            Array.ForEach(faulty.Length > 0 ? [] : errors, Console.WriteLine);
        }

        throw new InvalidOperationException("It does not compile.");
    }

    private static bool IsSwitch(SyntaxNode node) => (node switch
    {
        ConditionalExpressionSyntax either => either.Condition,
        IfStatementSyntax branch => branch.Condition,
        _ => null,
    })?.ToString().StartsWith(Switch, StringComparison.Ordinal) ?? false;

    private CSharpCompilation Compilation(
        Dictionary<string, SyntaxTree> trees, Dictionary<SyntaxNode, List<Mutant>> drawn, HashSet<int> refused)
    {
        string built = Path.Combine(folder, "obj", "Release", "net10.0", "CeramicOptics.");
        IEnumerable<SyntaxTree> sources = trees.Values.Select(tree => drawn.Keys.Any(n => n.SyntaxTree == tree)
            ? CSharpSyntaxTree.ParseText(
                new Switches(drawn, refused).Visit(tree.GetRoot())!.ToFullString(), Options, tree.FilePath) : tree);
        string[] extra =
            [Source, File.ReadAllText(built + "GlobalUsings.g.cs"), File.ReadAllText(built + "AssemblyInfo.cs")];
        string[] references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(':');
        return CSharpCompilation.Create(
            "CeramicOptics", [.. sources, .. extra.Select(text => CSharpSyntaxTree.ParseText(text, Options))],
            references.Where(path => Path.GetFileName(path) is var name
                && (name.StartsWith("System.", StringComparison.Ordinal)
                    || name is "mscorlib.dll" or "netstandard.dll" or "MathNet.Numerics.dll"))
                .Select(path => MetadataReference.CreateFromFile(path)),
            new CSharpCompilationOptions(
                OutputKind.DynamicallyLinkedLibrary, optimizationLevel: OptimizationLevel.Release, allowUnsafe: true,
                nullableContextOptions: NullableContextOptions.Enable));
    }

    private static IEnumerable<ResourceDescription> Resources()
    {
        Assembly library = Assembly.LoadFrom(Path.Combine(AppContext.BaseDirectory, "CeramicOptics.dll"));
        return library.GetManifestResourceNames().Select(
            name => new ResourceDescription(name, () => library.GetManifestResourceStream(name)!, true));
    }

    private sealed class Switches(Dictionary<SyntaxNode, List<Mutant>> drawn, HashSet<int> refused)
        : CSharpSyntaxRewriter
    {
        public override SyntaxNode? Visit(SyntaxNode? node)
        {
            SyntaxNode? visited = base.Visit(node);
            if (node is null || !drawn.TryGetValue(node, out List<Mutant>? mutants))
            {
                return visited;
            }

            foreach (Mutant mutant in mutants.Where(m => !refused.Contains(m.Id)))
            {
                string on = $"{Switch}{mutant.Id})";
                visited = node is StatementSyntax
                    ? SyntaxFactory.ParseStatement(
                        $"if ({on}) {{ {mutant.Mutated} }} else {{ {visited!.ToFullString()}\n}}\n", 0, Options)
                    : SyntaxFactory.ParseExpression(
                        $"({on} ? ({mutant.Mutated}) : ({visited!.ToFullString()}\n))", 0, Options);
            }

            return visited;
        }
    }
}
