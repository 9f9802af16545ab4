using System.Reflection;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using CeramicOptics.TableGenerator;
using PublicApiGenerator;

namespace CeramicOptics.Tests.Design;

/// <summary>Rules of the house that a compiler does not check.</summary>
public class DesignRuleTests
{
    private static readonly Type[] PublicTypes = typeof(LayerStack).Assembly.GetExportedTypes();

    // From the top of the house down; a folder may use only those before it.
    private static readonly string[] Floors =
        ["Spectra", "Colorimetry", "Layers", "Characterization", "Selection", "Mapping", "Exchange"];

    [Fact]
    public void Public_types_are_immutable()
    {
        foreach (Type type in PublicTypes.Where(type => !type.IsEnum))
        {
            // Fields of the framework's own base classes (Exception) are not ours to judge.
            foreach (FieldInfo field in type.GetFields(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic)
                .Where(field => field.DeclaringType!.Assembly == type.Assembly))
            {
                bool generated = field.GetCustomAttribute<CompilerGeneratedAttribute>() is not null;
                Assert.True(field.IsInitOnly || generated, $"{type}.{field.Name} can be written");
            }

            foreach (PropertyInfo property in type.GetProperties().Where(property => property.SetMethod is not null && property.DeclaringType!.Assembly == type.Assembly))
            {
                bool initOnly = property.SetMethod!.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));
                Assert.True(initOnly || !property.SetMethod.IsPublic, $"{type}.{property.Name} can be set");
            }
        }
    }

    [Fact]
    public void No_public_property_or_result_is_an_array()
    {
        foreach (Type type in PublicTypes)
        {
            Assert.All(type.GetProperties(), property => Assert.False(property.PropertyType.IsArray, $"{type}.{property.Name}"));
            Assert.All(
                type.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly),
                method => Assert.False(method.ReturnType.IsArray, $"{type}.{method.Name}"));
        }
    }

    [Fact]
    public void Equality_comes_with_its_operators()
    {
        foreach (Type type in PublicTypes.Where(type => !type.IsEnum))
        {
            bool equatable = type.GetInterfaces().Contains(typeof(IEquatable<>).MakeGenericType(type));
            bool hasOperator = type.GetMethod("op_Equality", BindingFlags.Public | BindingFlags.Static | BindingFlags.FlattenHierarchy, [type, type]) is not null;
            Assert.True(!equatable || hasOperator, $"{type} has Equals but not ==");
        }
    }

    [Fact]
    public void Classes_are_closed() =>
        Assert.All(PublicTypes.Where(type => type.IsClass), type => Assert.True(type.IsSealed || type == typeof(Spectrum), $"{type} is open"));

    [Fact]
    public void Nothing_static_can_change() =>
        Assert.All(
            typeof(LayerStack).Assembly.GetTypes()
                .Where(type => type.Namespace?.StartsWith("CeramicOptics", StringComparison.Ordinal) == true && !type.IsDefined(typeof(CompilerGeneratedAttribute)))
                .SelectMany(type => type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly)),
            field => Assert.True(field.IsInitOnly || field.IsLiteral, $"{field.DeclaringType}.{field.Name}"));

    [Fact]
    public void Folders_use_only_those_above_them()
    {
        foreach (string file in Directory.EnumerateFiles(Repository.PathOf("src", "CeramicOptics"), "*.cs", SearchOption.AllDirectories))
        {
            string folder = Path.GetRelativePath(Repository.PathOf("src", "CeramicOptics"), file).Split(Path.DirectorySeparatorChar)[0];
            int floor = Array.IndexOf(Floors, folder);
            if (floor < 0)
            {
                continue;
            }

            foreach (string line in File.ReadLines(file).Where(line => line.StartsWith("using CeramicOptics.", StringComparison.Ordinal)))
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
                .Where(file => !file.EndsWith(".g.cs", StringComparison.Ordinal) && !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)),
            file => Assert.True(File.ReadLines(file).Count() <= 320, file));

    /// <summary>The public API is reviewed text: a change shows in the diff. CERAMICOPTICS_APPROVE=1 writes the file anew.</summary>
    [Fact]
    public void Public_api_is_the_approved_one()
    {
        string path = Repository.PathOf("tests", "CeramicOptics.Tests", "Design", "PublicApi.approved.txt");
        string actual = typeof(LayerStack).Assembly.GeneratePublicApi(new ApiGeneratorOptions { IncludeAssemblyAttributes = false }).ReplaceLineEndings("\n") + "\n";
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
            Assert.Equal(parts[0], Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(data, parts[1])))));
        }

        Assert.Equal(
            CieTableSource.Generate(Path.Combine(data, "cie")),
            File.ReadAllText(Repository.PathOf("src", "CeramicOptics", "Data", "CieTables.g.cs")).ReplaceLineEndings("\n"));
    }
}
