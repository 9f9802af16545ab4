using Mono.Cecil;
using Mono.Cecil.Cil;

namespace CeramicOptics.Tests.Design;

/// <summary>
/// Nothing in the library writes a number or a date in the culture of the machine: read from the instructions of every
/// method, interpolated strings included, which analyzers let through.
/// </summary>
public class CultureTests
{
    private static readonly string[] Written =
        ["System.Double", "System.Single", "System.Decimal", "System.DateTime", "System.DateTimeOffset"];

    [Fact]
    public void No_number_is_written_in_the_culture_of_the_machine() =>
        Assert.Empty(Found(typeof(LayerStack).Assembly.Location, "CeramicOptics."));

    [Fact]
    public void The_rule_sees_every_way_to_write_one() =>
        Assert.Equal(
            ["Added", "Appended", "Joined", "Said", "Spoken"],
            Found(typeof(CultureTests).Assembly.Location, "CultureTests/Careless::")
                .Select(name => name.Split('.')[^1]).Order(StringComparer.Ordinal));

    private static List<string> Found(string assembly, string prefix)
    {
        using ModuleDefinition module = ModuleDefinition.ReadModule(assembly);
        return [.. module.GetTypes().SelectMany(type => type.Methods)
            .Where(method => method.HasBody && IsCareless(method.Body) && !IsGenerated(method)
                && method.FullName.Contains(prefix, StringComparison.Ordinal))
            .Select(method => $"{method.DeclaringType.FullName}.{method.Name}")];
    }

    // What the compiler writes for a record: options and other input show it to a debugger, answers have their own
    // text.
    private static bool IsGenerated(MethodDefinition method) =>
        method.Name == "PrintMembers"
        && (!method.DeclaringType.IsPublic || method.DeclaringType.Methods.Any(other =>
            (other.IsConstructor && other.IsPublic)
            || (other.Name == "ToString" && other.Parameters.Count == 0 && !other.CustomAttributes.Any(
                attribute => attribute.AttributeType.Name == "CompilerGeneratedAttribute"))));

    private static bool IsCareless(MethodBody body)
    {
        // Whether the interpolated string that is being filled has been given a culture.
        bool isGiven = true;
        foreach (Instruction instruction in body.Instructions)
        {
            if (instruction.Operand is not MethodReference called)
            {
                continue;
            }

            string type = called.DeclaringType.FullName;
            string first = called.Parameters.Count > 0 ? called.Parameters[0].ParameterType.FullName : "";
            if (type.EndsWith(".DefaultInterpolatedStringHandler", StringComparison.Ordinal))
            {
                isGiven = called.Name == ".ctor" ? called.Parameters.Count > 2 : isGiven;
                if (!isGiven && called is GenericInstanceMethod { Name: "AppendFormatted" } appended
                    && Written.Contains(Inner(appended.GenericArguments[0])))
                {
                    return true;
                }
            }
            else if (
                (called.Name == "ToString" && Written.Contains(Receiver(instruction, type))
                    && !called.Parameters.Any(parameter => parameter.ParameterType.Name == "IFormatProvider"))
                || (type == "System.String" && called.Name == "Format" && first == "System.String")
                || (type is "System.String" && called.Name is "Concat" or "Join"
                    && called.Parameters.Any(parameter => parameter.ParameterType.FullName.Contains("System.Object",
                        StringComparison.Ordinal)))
                || (type == "System.Text.StringBuilder" && called.Name is "Append" or "AppendFormat" or "Insert"
                    && (called.Name == "AppendFormat" ? first == "System.String"
                        : called.Parameters.Any(parameter => Written.Append("System.Object")
                            .Contains(parameter.ParameterType.FullName))))
                || (type == "System.IO.TextWriter" && called.Name is "Write" or "WriteLine"
                    && called.Parameters.Any(parameter => Written.Append("System.Object")
                        .Contains(parameter.ParameterType.FullName))))
            {
                return true;
            }
        }

        return false;
    }

    private static string Inner(TypeReference type) =>
        type is GenericInstanceType { ElementType.FullName: "System.Nullable`1" } nullable
            ? nullable.GenericArguments[0].FullName : type.FullName;

    private static string Receiver(Instruction call, string type) =>
        call.Previous is { OpCode.Code: Code.Constrained, Operand: TypeReference constrained } ? Inner(constrained)
            : type;

#pragma warning disable CA1305
    // What the rule is for.
    private static class Careless
    {
        public static string Said(double value) => $"{value} mm";

        public static string Spoken(double? value) => $"{value:0.0} mm";

        public static string Added(double value) => value + " mm";

        public static string Appended(double value) => new System.Text.StringBuilder().Append(value).ToString();

        public static string Joined(double value) => string.Join(" ", "mm", (object)value);

        public static string Careful(double value) => string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"{value} mm");
    }
#pragma warning restore CA1305
}
