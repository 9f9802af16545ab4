using System.Collections;
using System.Globalization;
using System.Resources;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace CeramicOptics.Tests.Design;

/// <summary>Sentences for readers of answers stand in the resources, not in the code.</summary>
public class WordsInSourceTests
{
    private static readonly string[] Folders =
        ["Colorimetry", "Layers", "Characterization", "Restorations", "Decisions", "Mapping"];

    // Helpers that put their text into the message of an exception, and a citation.
    private static readonly string[] Messages = ["NotDetermined", "InRange", "Paravina"];

    // What exceptions call a quantity, names of an illuminant and of layers and readings inside a calculation,
    // formulas.
    private static readonly string[] NoSentences =
        ["The source", "Yellowness E313", "CIE whiteness", "Illuminant ", " to ", " mm over ", " +  nm²/λ²", "power "];

    /// <summary>
    /// Text of two words or more, or with a value in it, belongs to the message of an exception or to a guard, or is a
    /// name that the resources translate.
    /// </summary>
    [Fact]
    public void No_sentence_stands_in_the_code()
    {
        HashSet<string> names = [.. Keys().Where(key => key.StartsWith("Name.", StringComparison.Ordinal))
            .Select(key => key["Name.".Length..])];
        int messages = 0;
        List<string> found = [];
        foreach (string file in Folders.SelectMany(folder => Directory.EnumerateFiles(
            Repository.PathOf("src", "CeramicOptics", folder), "*.cs", SearchOption.AllDirectories)))
        {
            foreach (ExpressionSyntax text in CSharpSyntaxTree.ParseText(File.ReadAllText(file)).GetRoot()
                .DescendantNodes().OfType<ExpressionSyntax>()
                    .Where(node => IsSentence(node) && !names.Contains(Words(node)!)
                    && !NoSentences.Contains(Words(node))))
            {
                if (IsMessage(text))
                {
                    messages++;
                }
                else
                {
                    found.Add($"{Path.GetFileName(file)}: {text}");
                }
            }
        }

        Assert.True(found.Count == 0, string.Join("\n", found));
        Assert.True(messages > 50);
    }

    /// <summary>A key that nothing asks for is a sentence that nobody reads.</summary>
    [Fact]
    public void Every_key_is_asked_for()
    {
        string source = string.Join("\n", Directory.EnumerateFiles(
            Repository.PathOf("src", "CeramicOptics"), "*.cs", SearchOption.AllDirectories).Select(File.ReadAllText));
        HashSet<string> kinds = [.. typeof(Language).Assembly.GetExportedTypes().Where(type => type.IsEnum)
            .SelectMany(type => Enum.GetNames(type).Select(value => $"{type.Name}.{value}"))];
        Assert.All(Keys(), key =>
        {
            string[] parts = key.Split('.');
            Assert.True(
                parts[0] == "Name" || kinds.Contains(key) || source.Contains($"\"{key}\"", StringComparison.Ordinal)
                    || (source.Contains($"$\"{parts[0]}.{{", StringComparison.Ordinal)
                        && source.Contains(parts[1], StringComparison.Ordinal)), key);
        });
    }

    private static IEnumerable<string> Keys() => new ResourceManager("CeramicOptics.Words.English",
        typeof(Language).Assembly)
        .GetResourceSet(CultureInfo.InvariantCulture, true, false)!.Cast<DictionaryEntry>()
        .Select(entry => (string)entry.Key);

    private static bool IsSentence(ExpressionSyntax node) =>
        node is LiteralExpressionSyntax or InterpolatedStringExpressionSyntax
        && Words(node) is string words && Regex.IsMatch(words, "[a-z]{2,}")
        && (node is LiteralExpressionSyntax ? Regex.IsMatch(words, "[A-Za-z,;:] [A-Za-z]") : words.Contains(' '));

    private static string? Words(ExpressionSyntax node) => node switch
    {
        LiteralExpressionSyntax literal => literal.Token.Value as string,
        InterpolatedStringExpressionSyntax text =>
            string.Concat(text.Contents.OfType<InterpolatedStringTextSyntax>()
                .Select(part => part.TextToken.ValueText)),
        _ => null,
    };

    private static bool IsMessage(SyntaxNode text) => text.Ancestors().Any(node => node switch
    {
        ThrowStatementSyntax or ThrowExpressionSyntax or AttributeSyntax => true,
        ObjectCreationExpressionSyntax made => made.Type.ToString().EndsWith("Exception", StringComparison.Ordinal),
        InvocationExpressionSyntax call => call.Expression.ToString() is string called
            && (called.StartsWith("Guard.", StringComparison.Ordinal)
                || called.Split('.')[^1].StartsWith("Require", StringComparison.Ordinal)
                || Messages.Contains(called)),
        MethodDeclarationSyntax method => Messages.Contains(method.Identifier.Text)
            || method.ReturnType.ToString().EndsWith("Exception", StringComparison.Ordinal),
        VariableDeclaratorSyntax variable => Messages.Contains(variable.Identifier.Text),
        _ => false,
    });
}
