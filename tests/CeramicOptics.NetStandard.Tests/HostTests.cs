using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using CeramicOptics.Tests;

namespace CeramicOptics.NetStandard.Tests;

/// <summary>
/// What the compiled netstandard2.0 library asks of a host: docs/hosts.md says it, and it must stay so for hosts that
/// compile ahead of time, such as IL2CPP, and for .NET Framework, which binds assemblies by their version.
/// </summary>
public class HostTests
{
    // Needs a compiler at run time, or finds types and members by name, which a linker may have removed.
    private static readonly string[] ForbiddenTypes =
    [
        "System.Reflection.Emit.", "System.Linq.Expressions.", "System.Dynamic.", "Microsoft.CSharp.",
        "System.Activator", "System.Text.Json.JsonSerializer", "System.CodeDom.", "System.AppDomain",
        "System.Reflection.PropertyInfo", "System.Reflection.FieldInfo", "System.Reflection.ConstructorInfo",
        "System.Runtime.Serialization.Formatters.", "System.Xml.Serialization.",
    ];

    private static readonly string[] ForbiddenMembers =
    [
        "System.Type.MakeGenericType", "System.Type.GetType", "System.Type.GetMethod", "System.Type.GetProperty",
        "System.Type.InvokeMember", "System.Reflection.MethodInfo.MakeGenericMethod", "System.Reflection.Assembly.Load",
        "System.Reflection.Assembly.LoadFrom", "System.Reflection.MethodBase.Invoke", "System.Array.CreateInstance",
        "System.Delegate.DynamicInvoke", "System.Delegate.CreateDelegate",
    ];

    [Fact]
    public void Nothing_is_compiled_or_found_by_name_at_run_time()
    {
        string[] members = Read(reader => reader.MemberReferences.Select(handle =>
        {
            MemberReference member = reader.GetMemberReference(handle);
            return member.Parent.Kind == HandleKind.TypeReference
                ? $"{NameOf(reader, (TypeReferenceHandle)member.Parent)}.{reader.GetString(member.Name)}" : "";
        }));
        string[] types = Read(reader => reader.TypeReferences.Select(handle => NameOf(reader, handle)));

        // The lists above are spelled as the library would: these it does use.
        Assert.Contains("System.Reflection.Assembly.GetManifestResourceStream", members);
        Assert.Contains("System.Text.Json.JsonDocument", types);
        Assert.DoesNotContain(types, type => ForbiddenTypes.Any(
            forbidden => type == forbidden || (forbidden[^1] == '.' && type.StartsWith(forbidden))));
        Assert.DoesNotContain(members, ForbiddenMembers.Contains);
    }

    [Fact]
    public void Nothing_native_is_called() => Assert.Empty(Read(reader => reader.MethodDefinitions
        .Where(handle => !reader.GetMethodDefinition(handle).GetImport().Module.IsNil)
        .Select(handle => reader.GetString(reader.GetMethodDefinition(handle).Name))));

    /// <summary>A .NET Framework host needs these versions, or redirects to later ones.</summary>
    [Fact]
    public void Page_names_every_assembly_that_the_library_references()
    {
        string[] asked = Read(reader => reader.AssemblyReferences.Select(handle =>
        {
            AssemblyReference assembly = reader.GetAssemblyReference(handle);
            return $"| `{reader.GetString(assembly.Name)}` | {assembly.Version} |";
        }));
        string[] told =
        [
            .. File.ReadLines(Repository.PathOf("docs", "hosts.md")).Where(line => line.StartsWith("| `"))
                .Select(line => string.Join('|', line.Split('|')[..3]) + "|"),
        ];
        Assert.Equal(asked.Order(StringComparer.Ordinal), told.Order(StringComparer.Ordinal));
    }

    private static string[] Read(Func<MetadataReader, IEnumerable<string>> select)
    {
        using FileStream file = File.OpenRead(typeof(LayerStack).Assembly.Location);
        using PEReader portable = new(file);
        return [.. select(portable.GetMetadataReader())];
    }

    private static string NameOf(MetadataReader reader, TypeReferenceHandle handle)
    {
        TypeReference type = reader.GetTypeReference(handle);
        string name = reader.GetString(type.Name);
        return type.ResolutionScope.Kind == HandleKind.TypeReference
            ? $"{NameOf(reader, (TypeReferenceHandle)type.ResolutionScope)}+{name}"
            : $"{reader.GetString(type.Namespace)}.{name}";
    }
}
