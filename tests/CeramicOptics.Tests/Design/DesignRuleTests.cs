using System.Reflection;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using CeramicOptics.Restorations;
using CeramicOptics.TableGenerator;
using PublicApiGenerator;

namespace CeramicOptics.Tests.Design;

/// <summary>Rules of the house that a compiler does not check.</summary>
public class DesignRuleTests
{
    private static readonly Type[] PublicTypes = typeof(LayerStack).Assembly.GetExportedTypes();

    // From the top of the house down; a folder may use only those before it.
    private static readonly string[] Floors =
        ["Spectra", "Colorimetry", "Layers", "Characterization", "Restorations", "Decisions", "Mapping", "Exchange"];

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














                                                                    && (type.Namespace!.StartsWith("CeramicOptics.Decisions", StringComparison.Ordinal) || type.Namespace == "CeramicOptics.Mapping" || type == typeof(Caution)))];
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














                                                                    || type.GetMethods().Any(method => method.Name == "<Clone>$" && type.GetConstructors().Length > 0 && type.GetProperties().All(property => property.Name != "Cautions"))
            || type.Name is "ThicknessMap" or "TwoLayerMap" or "Pigment" or "CementOption" or "UncertainStack"
                or "DeliveredPiece";
    }

    /// <summary>Every decision is asked by the one verb: the question first, progress and cancellation last.</summary>
    [Fact]
    public void Decisions_share_one_verb_and_one_order()
    {
        foreach (MethodInfo method in PublicTypes
            .Where(
                type => type.IsAbstract && type.IsSealed && type.Namespace!.StartsWith("CeramicOptics.Decisions",
                StringComparison.Ordinal))
            .SelectMany(type => type.GetMethods(BindingFlags.Public | BindingFlags.Static | BindingFlags.DeclaredOnly))
            .Where(
                method =>
                    method.GetParameters().Any(parameter => parameter.ParameterType == typeof(CancellationToken))))
        {
            ParameterInfo[] parameters = method.GetParameters();
            Assert.StartsWith("Find", method.Name, StringComparison.Ordinal);
            Assert.Equal(typeof(CancellationToken), parameters[^1].ParameterType);
            Assert.Equal(typeof(IProgress<double>), parameters[^2].ParameterType);
        }
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
                        BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly)),
            field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{field.DeclaringType}.{field.Name}"));

    [Fact]
    public void Folders_use_only_those_above_them()
    {
        foreach (
            string file in Directory.EnumerateFiles(Repository.PathOf("src", "CeramicOptics"), "*.cs",
            SearchOption.AllDirectories))
        {
            string folder = Path.GetRelativePath(Repository.PathOf("src", "CeramicOptics"), file)
                .Split(Path.DirectorySeparatorChar)[0];
            int floor = Array.IndexOf(Floors, folder);
            if (floor < 0)
            {
                continue;
            }

            foreach (
                string line in File.ReadLines(file).Where(line => line.StartsWith("using CeramicOptics.",
                StringComparison.Ordinal)))
            {
                string used = line["using CeramicOptics.".Length..].TrimEnd(';').Split('.')[0];
                Assert.True(used == "Data" || Array.IndexOf(Floors, used) <= floor, $"{file} uses {used}");
            }
        }
    }

    [Fact]
    public void Files_stay_short() =>
        Assert.All(
            Directory.EnumerateFiles(Repository.PathOf("src", "CeramicOptics"), "*.cs", SearchOption.AllDirectories)
                .Where(
                    file => !file.EndsWith(".g.cs",
                    StringComparison.Ordinal) && !file.Contains(
                        $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)),
            file => Assert.True(File.ReadLines(file).Count() <= 320, file));

    [Fact]
    public void Lines_stay_within_120_characters()
    {
        foreach (string file in Directory.EnumerateFiles(Repository.PathOf("src"), "*.cs", SearchOption.AllDirectories)
            .Where(
                file => !file.EndsWith(".g.cs",
                StringComparison.Ordinal) && !file.Contains(
                    $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)))
        {
            int line = 0;
            Assert.All(
                File.ReadLines(file),
                text => Assert.True(text.Length <= 120, $"{file}, line {++line}: {text.Length} characters"));
        }
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
