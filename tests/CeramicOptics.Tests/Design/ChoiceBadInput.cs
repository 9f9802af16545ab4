using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Choices of which two have one name, for the table of messages.</summary>
public class ChoiceBadInput
{
    private static readonly Ceramic Grade = BadInputTests.Grade;

    internal static Dictionary<string, Action> Cases { get; } = new()
    {
        ["ceramic to be ranked given twice"] = () => GradeChoice.Find(
            BadInputTests.Case(MaskingReference.SelfBacked), [Grade, Of("family", 2, "denser"), Grade]),
        ["ceramic to be matched of one name but other constants"] = () => _ = new MatchOptions(
            [Grade, Of("family", 1, "other constants")]),
        ["ceramics of one name of the material"] = () => _ = new MatchOptions(
            [Grade, Of("other family", 1, "ceramic")]),
        ["ceramic of a remedy given twice"] = () => _ = new RemedyOptions { Ceramics = [Grade, Grade] },
        ["cement given twice"] = () => _ = new MatchOptions([Grade])
        {
            Cements = [Film(0.05), Film(0.1), Film(0.05)],
        },
        ["cement of a remedy given twice"] = () => _ = new RemedyOptions { Cements = [Film(0.05), Film(0.05)] },
        ["veneer given twice"] = () => _ = new MatchOptions([Grade])
        {
            Veneers = [BadInputTests.Ceramic, BadInputTests.Ceramic],
        },
        ["share of a veneer given twice"] = () => _ = new MatchOptions([Grade]) { VeneerShares = [0.3, 0.5, 0.3] },
        ["pigment given twice"] = () => _ = new StainOptions(
            new StainLayer(BadInputTests.Ceramic, 0.05),
            [BadInputTests.Ochre(BadInputTests.Grid), BadInputTests.Ochre(BadInputTests.Grid)]),
    };

    private static Ceramic Of(string family, int grade, string material) => new(
        family, grade, new Material(
            material, BadInputTests.Ceramic.Model, BadInputTests.Ceramic.Absorption,
            ScatteringSpectrum.Uniform(BadInputTests.Grid, 4), 1.53));

    private static Layer Film(double mm) => new(BadInputTests.Ceramic, mm);
}
