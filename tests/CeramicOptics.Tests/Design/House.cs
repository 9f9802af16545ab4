using Mono.Cecil;
using Mono.Cecil.Cil;

namespace CeramicOptics.Tests.Design;

/// <summary>
/// The folders of the library, which are its namespaces, and what each uses of the others, read from the types,
/// signatures, attributes and instructions of the compiled assembly.
/// </summary>
internal sealed class House
{
    private const string Root = "CeramicOptics";

    private readonly SortedDictionary<string, SortedSet<string>> _uses = new(StringComparer.Ordinal);
    private readonly Dictionary<(string From, string To), SortedSet<string>> _witnesses = [];

    private House(ModuleDefinition module)
    {
        foreach (TypeDefinition type in module.GetTypes())
        {
            if (FolderOf(type) is string folder)
            {
                _uses.TryAdd(folder, new(StringComparer.Ordinal));
                foreach (TypeReference used in Parts(type).SelectMany(Flatten))
                {
                    Add(folder, type, used);
                }
            }
        }
    }

    public static House Library { get; } = new(ModuleDefinition.ReadModule(typeof(LayerStack).Assembly.Location));

    /// <summary>Names of folders, "Decisions/Masking"; the root is "".</summary>
    public IEnumerable<string> Folders => _uses.Keys;

    public IReadOnlySet<string> UsesOf(string folder) => _uses[folder];

    /// <summary>The types of one folder that use the other, "LayerStack uses WavelengthGrid".</summary>
    public string Witnesses(string folder, string used) => string.Join(", ", _witnesses[(folder, used)].Take(5));

    /// <summary>"Decisions" of "Decisions/Masking".</summary>
    public static string FloorOf(string folder) => folder.Split('/')[0];

    private static TypeDefinition Outermost(TypeDefinition type) =>
        type.DeclaringType is null ? type : Outermost(type.DeclaringType);

    private static string? FolderOf(TypeDefinition type)
    {
        string name = Outermost(type).Namespace;
        return name == Root ? ""
            : name.StartsWith(Root + ".", StringComparison.Ordinal) ? name[(Root.Length + 1)..].Replace('.', '/')
                : null;
    }

    private void Add(string folder, TypeDefinition type, TypeReference used)
    {
        if (used is TypeDefinition definition && FolderOf(definition) is string other && other != folder)
        {
            _uses[folder].Add(other);
            _witnesses.TryAdd((folder, other), new(StringComparer.Ordinal));
            _witnesses[(folder, other)].Add($"{Outermost(type).Name} uses {Outermost(definition).Name}");
        }
    }

    private static IEnumerable<TypeReference?> Parts(TypeDefinition type) =>
        [type.BaseType, .. type.Interfaces.Select(implemented => implemented.InterfaceType), .. Attributes(type),
            .. type.GenericParameters.SelectMany(Constraints),
            .. type.Properties.SelectMany(Attributes),
            .. type.Fields.SelectMany(field => Attributes(field).Append(field.FieldType)),
            .. type.Methods.SelectMany(method => Attributes(method).Concat(Signature(method)).Concat(Body(method)))];

    private static IEnumerable<TypeReference?> Attributes(ICustomAttributeProvider owner) =>
        owner.CustomAttributes.SelectMany(attribute => attribute.ConstructorArguments
            .Select(argument => argument.Value as TypeReference).Append(attribute.AttributeType));

    private static IEnumerable<TypeReference?> Constraints(GenericParameter parameter) =>
        parameter.Constraints.Select(constraint => constraint.ConstraintType);

    private static IEnumerable<TypeReference?> Signature(MethodReference method) =>
        [method.DeclaringType, method.ReturnType, .. method.Parameters.Select(parameter => parameter.ParameterType),
            .. method.GenericParameters.SelectMany(Constraints),
            .. (method as GenericInstanceMethod)?.GenericArguments ?? []];

    private static IEnumerable<TypeReference?> Body(MethodDefinition method) => !method.HasBody ? [] :
        [.. method.Body.Variables.Select(variable => variable.VariableType),
            .. method.Body.ExceptionHandlers.Select(handler => handler.CatchType),
            .. method.Body.Instructions.SelectMany(instruction => instruction.Operand switch
            {
                TypeReference type => [type],
                MethodReference called => Signature(called),
                FieldReference field => [field.DeclaringType, field.FieldType],
                _ => Enumerable.Empty<TypeReference?>(),
            })];

    // A generic type uses its arguments, an array or a reference its elements.
    private static IEnumerable<TypeReference> Flatten(TypeReference? type) => type switch
    {
        null => [],
        GenericInstanceType generic => generic.GenericArguments.Prepend(generic.ElementType).SelectMany(Flatten),
        TypeSpecification specification => Flatten(specification.ElementType),
        _ => [type],
    };
}
