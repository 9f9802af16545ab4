using System.Reflection;
using System.Text.RegularExpressions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Tests.Unit;

namespace CeramicOptics.Tests.Design;

/// <summary>The table of docs/cautions.md: every output with a thickness, and the test of its cautions.</summary>
public class CautionTableTests
{
    private static readonly string[][] Rows =
    [
        .. File.ReadAllLines(Repository.PathOf("docs", "cautions.md"))
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .Select(line => line.Split('|').Select(cell => cell.Trim()).ToArray()),
    ];

    [Fact]
    public void Every_output_with_a_thickness_is_in_the_table()
    {
        // Results have no public constructor, maps have one; a name in Mm, or of thicknesses, is a thickness.
        IEnumerable<Type> outputs = typeof(Answer).Assembly.GetExportedTypes()
            .Where(type => Regex.IsMatch(type.Namespace!, @"\.(Decisions|Mapping)\b") && type.IsClass
                && !type.IsAbstract
                && (type.GetConstructors().Length == 0 || type.Name.EndsWith("Map", StringComparison.Ordinal))
                && type.GetMembers(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
                    .Any(member => Regex.IsMatch(member.Name, "(Mm|Thicknesses|Thickness|RequirementAt)$")));
        IEnumerable<string> answers = typeof(Answer).Assembly.GetExportedTypes()
            .Where(type => !type.IsAbstract && typeof(Answer).IsAssignableFrom(type)).Concat(outputs).Distinct()
            .Select(type => type.Name);
        Assert.Equal(
            answers.Order(StringComparer.Ordinal), Rows.Select(row => row[1].Trim('`')).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_tests_of_the_table_are_there()
    {
        HashSet<string> tests = [.. typeof(CautionTableTests).Assembly.GetTypes()
            .SelectMany(type => type.GetMethods().Where(method => method.GetCustomAttributes()
                .Any(attribute => attribute.GetType().Name is "FactAttribute" or "TheoryAttribute"))
                .Select(method => $"{type.Name}.{method.Name}"))];
        Assert.All(Rows, row => Assert.Contains(row[4].Trim('`'), tests));
    }

    /// <summary>
    /// Whatever answer it is: strength and tooth, and that no limit was given where a zone has none.
    /// </summary>
    [Fact]
    public void Every_answer_has_the_cautions_of_a_thickness()
    {
        int answers = 0;
        foreach (object decided in EveryAnswer.Decided())
        {
            IReadOnlyList<Caution>? cautions = decided switch
            {
                Answer answer => answer.Cautions,
                ThicknessRequirement requirement => requirement.Cautions,
                _ => null,
            };
            if (cautions is null)
            {
                continue;
            }

            answers++;
            Assert.Contains(cautions, caution => caution.Kind == CautionKind.StrengthNotAssessed);
            Assert.Contains(cautions, caution => caution.Kind == CautionKind.ToothReduction);
            Restoration? made = (decided as MaskingResult)?.Restoration ?? (decided as StainRecipe)?.Restoration
                ?? (decided as SpotMaskingResult)?.Restoration ?? (decided as UncertaintyResult)?.Restoration;
            Assert.Equal(
                made is not null && made.Zones.Any(zone => made.StructuralMinimumMm(zone) is null),
                made is not null && cautions.Any(caution => caution.Kind == CautionKind.StrengthLimitNotGiven));
        }

        Assert.True(answers >= 15);
    }
}
