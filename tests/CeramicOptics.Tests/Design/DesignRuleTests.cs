using System.Reflection;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using CeramicOptics.Restorations;
using CeramicOptics.TableGenerator;
using PublicApiGenerator;

namespace CeramicOptics.Tests.Design;

/// <summary>Rules of the house that a compiler does not check.</summary>
public class DesignRuleTests
{
    private static readonly Type[] PublicTypes = typeof(LayerStack).Assembly.GetExportedTypes();

    [Fact]
    public void Public_types_are_immutable()
    {
        foreach (Type type in PublicTypes.Where(type => !type.IsEnum))
        {
            // Fields of the framework's own base classes (Exception) are not ours to judge.
            foreach (
                FieldInfo field in type.GetFields(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic)
                .Where(field => field.DeclaringType!.Assembly == type.Assembly))
            {
                bool generated = field.GetCustomAttribute<CompilerGeneratedAttribute>() is not null;
                Assert.True(field.IsInitOnly || generated, $"{type}.{field.Name} can be written");
            }

            foreach (
                PropertyInfo property in type.GetProperties()
                    .Where(
                        property =>
                            property.SetMethod is not null && property.DeclaringType!.Assembly == type.Assembly))
            {
                bool initOnly = property.SetMethod!.ReturnParameter.GetRequiredCustomModifiers()
                    .Contains(typeof(IsExternalInit));
                Assert.True(initOnly || !property.SetMethod.IsPublic, $"{type}.{property.Name} can be set");
            }
        }
    }

    [Fact]
    public void No_public_property_or_result_is_an_array()
    {
        foreach (Type type in PublicTypes)
        {
            Assert.All(
                type.GetProperties(),
                property => Assert.False(property.PropertyType.IsArray, $"{type}.{property.Name}"));
            Assert.All(
                type.GetMethods(
                    BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly),
                method => Assert.False(method.ReturnType.IsArray, $"{type}.{method.Name}"));
        }
    }

    [Fact]
    public void Equality_comes_with_its_operators()
    {
        foreach (Type type in PublicTypes.Where(type => !type.IsEnum))
        {
            bool equatable = type.GetInterfaces().Contains(typeof(IEquatable<>).MakeGenericType(type));
            bool hasOperator = type.GetMethod(
                "op_Equality", BindingFlags.Public | BindingFlags.Static | BindingFlags.FlattenHierarchy,
                [type, type]) is not null;
            Assert.True(!equatable || hasOperator, $"{type} has Equals but not ==");
        }
    }

    [Fact]
    public void Classes_are_closed() =>
        Assert.All(
            PublicTypes.Where(type => type.IsClass),
            type =>
                Assert.True(
                    type.IsSealed || (
                        type.IsAbstract && type.GetConstructors(
                            BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public)
                            .All(made => made.IsFamilyAndAssembly)), $"{type} is open"));

    [Fact]
    public void No_public_member_has_a_tuple()
    {
        static bool HasTuple(Type type) =>
            type.FullName?.Contains("System.ValueTuple", StringComparison.Ordinal) == true
            || type.GetGenericArguments().Any(HasTuple) || (type.HasElementType && HasTuple(type.GetElementType()!));
        foreach (Type type in PublicTypes)
        {
            const BindingFlags Declared =
                BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;
            Assert.All(
                type.GetProperties(Declared),
                property => Assert.False(HasTuple(property.PropertyType), $"{type}.{property.Name}"));
            Assert.All(
                type.GetMethods(Declared).Cast<MethodBase>().Concat(type.GetConstructors()),
                method => Assert.False(
                    method.GetParameters()
                        .Any(parameter => HasTuple(parameter.ParameterType)) || (
                            method is MethodInfo info && HasTuple(info.ReturnType)), $"{type}.{method.Name}"));
        }
    }

    /// <summary>
    /// What a decision answers can be made by the library only, and never be changed: no public constructor, nothing
    /// that can be set, not even by "with".
    /// </summary>
    [Fact]
    public void Answers_cannot_be_forged()
    {
        Type[] answers = [.. PublicTypes.Where(type => type.IsClass && !type.IsAbstract && !IsInput(type)
            && (IsIn(type, "Decisions") || IsIn(type, "Mapping") || type == typeof(Caution)))];
        Assert.True(answers.Length > 20);
        foreach (Type answer in answers)
        {
            Assert.True(answer.GetConstructors().Length == 0, $"{answer} can be made by anybody");
            Assert.All(
                answer.GetProperties(),
                property =>
                    Assert.True(
                        property.SetMethod is null || property.SetMethod.IsAssembly || property.SetMethod.IsPrivate,
                        $"{answer}.{property.Name} can be set"));
        }

        // What the caller asks with, and what it draws maps with.
        static bool IsInput(Type type) => type.Name.EndsWith("Options", StringComparison.Ordinal)
            || type.Name is "ThicknessMap" or "TwoLayerMap" or "Pigment" or "CementOption" or "UncertainStack"
                or "DeliveredPiece"
            || (type.GetMethod("<Clone>$") is not null && type.GetConstructors().Length > 0
                && type.GetProperties().All(property => property.Name != "Cautions"));
    }

    /// <summary>What has no public constructor is an answer or a choice of the library: no "with" changes it.</summary>
    [Fact]
    public void What_the_library_alone_makes_is_never_set()
    {
        PropertyInfo[] properties = [.. PublicTypes
            .Where(type => type.IsClass && type.GetConstructors().Length == 0)
            .SelectMany(type => type.GetProperties(
                BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly))];
        Assert.True(properties.Length > 300);
        Assert.All(properties, property => Assert.True(
            property.SetMethod?.IsPublic != true, $"{property.DeclaringType}.{property.Name} can be set"));
    }

    /// <summary>Every question is asked by the one verb: Find, or FindFor... and the like.</summary>
    [Fact]
    public void Questions_share_one_verb()
    {
        MethodInfo[] questions = [.. PublicTypes
            .Where(type => type.IsAbstract && type.IsSealed
                && (IsIn(type, "Decisions") || IsIn(type, "Characterization")))
            .SelectMany(type => type.GetMethods(
                BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly))];
        Assert.True(questions.Length > 20);
        Assert.All(questions, method => Assert.True(
            Regex.IsMatch(method.Name, "^Find([A-Z]|$)"), $"{method.DeclaringType}.{method.Name}"));
    }

    /// <summary>
    /// What takes long is a question, a response to compile or to evaluate over a mesh, or a file to write; progress
    /// and cancellation come last, in this order.
    /// </summary>
    [Fact]
    public void Long_calls_share_verbs_and_one_order()
    {
        MethodInfo[] calls = [.. PublicTypes
            .SelectMany(type => type.GetMethods(
                BindingFlags.Public | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly))
            .Where(method => method.GetParameters().Any(
                parameter => parameter.ParameterType == typeof(CancellationToken)))];
        Assert.True(calls.Length > 25);
        Assert.All(calls, method =>
        {
            string name = $"{method.DeclaringType}.{method.Name}";
            Type[] parameters = [.. method.GetParameters().Select(parameter => parameter.ParameterType)];
            Assert.True(Regex.IsMatch(method.Name, "^(Find|Compile|Write|Over$|PredictionFor$)([A-Z]|$)"), name);
            Assert.True(parameters[^1] == typeof(CancellationToken), name);
            int progress = Array.IndexOf(parameters, typeof(IProgress<double>));
            Assert.True(progress < 0 || progress == parameters.Length - 2, name);
        });
    }

    [Fact]
    public void Nothing_static_can_change() =>
        Assert.All(
            typeof(LayerStack).Assembly.GetTypes()
                .Where(
                    type => type.Namespace?.StartsWith("CeramicOptics",
                    StringComparison.Ordinal) == true && !type.IsDefined(typeof(CompilerGeneratedAttribute)))
                .SelectMany(
                    type => type.GetFields(
                        BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic
                            | BindingFlags.DeclaredOnly)),
            field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{field.DeclaringType}.{field.Name}"));

    private static bool IsIn(Type type, string floor) =>
        type.Namespace == $"CeramicOptics.{floor}"
        || type.Namespace!.StartsWith($"CeramicOptics.{floor}.", StringComparison.Ordinal);

    [Fact]
    public void Files_stay_short() =>
        Assert.All(
            Directory.EnumerateFiles(Repository.PathOf("src", "CeramicOptics"), "*.cs", SearchOption.AllDirectories)
                .Where(
                    file => !file.EndsWith(".g.cs",
                    StringComparison.Ordinal) && !file.Contains(
                        $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)),
            file => Assert.True(File.ReadLines(file).Count() <= 320, file));

    /// <summary>Code and scripts of the whole repository; generated files, data and documents are not code.</summary>
    [Fact]
    public void Lines_stay_within_120_characters()
    {
        string[] endings = [".cs", ".fs", ".fsx", ".py", ".sh", ".c", ".cpp", ".h"];
        string[] files = [.. new[] { "src", "examples", "tests", "benchmarks", "docs", ".ci" }
            .SelectMany(folder => Directory.EnumerateFiles(
                Repository.PathOf(folder), "*", SearchOption.AllDirectories))
            .Where(file => !file.EndsWith(".g.cs", StringComparison.Ordinal)
                && !file.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj" or "_site")
                && (endings.Contains(Path.GetExtension(file))
                    || Path.GetFileName(Path.GetDirectoryName(file)) == ".ci"))];
        Assert.True(files.Count(file => !file.EndsWith(".cs", StringComparison.Ordinal)) > 30);
        Assert.Equal("", string.Join("\n", files.SelectMany(file => File.ReadLines(file)
            .Select((text, i) => (text.Length, At: $"{file}, line {i + 1}: {text.Length} characters"))
            .Where(line => line.Length > 120).Select(line => line.At))));
    }

    /// <summary>
    /// The public API is reviewed text: a change shows in the diff. CERAMICOPTICS_APPROVE=1 writes the file again.
    /// </summary>
    [Fact]
    public void Public_api_is_the_approved_one()
    {
        string path = Repository.PathOf("tests", "CeramicOptics.Tests", "Design", "PublicApi.approved.txt");
        string actual = typeof(LayerStack).Assembly.GeneratePublicApi(
            new ApiGeneratorOptions { IncludeAssemblyAttributes = false })
            .ReplaceLineEndings("\n") + "\n";
        if (Environment.GetEnvironmentVariable("CERAMICOPTICS_APPROVE") == "1")
        {
            File.WriteAllText(path, actual);
        }

        Assert.Equal(File.ReadAllText(path).ReplaceLineEndings("\n"), actual);
    }

    [Fact]
    public void Tables_are_what_the_generator_makes_of_the_pinned_data()
    {
        string data = Repository.PathOf("src", "TableGenerator");
        string[] pinned = File.ReadAllLines(Path.Combine(data, "SHA256SUMS"));
        Assert.Equal(Directory.GetFiles(Path.Combine(data, "cie"), "*.csv").Length, pinned.Length);
        foreach (string line in pinned)
        {
            string[] parts = line.Split("  ");
            Assert.Equal(
                parts[0], Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(data, parts[1])))));
        }

        Assert.Equal(
            CieTableSource.Generate(Path.Combine(data, "cie")),
            File.ReadAllText(Repository.PathOf("src", "CeramicOptics", "Data", "CieTables.g.cs"))
                .ReplaceLineEndings("\n"));
    }
}
