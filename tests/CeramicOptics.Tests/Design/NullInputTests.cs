using CeramicOptics.Decisions.Cementing;
using CeramicOptics.Decisions.Feasibility;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Remedies;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.Design.BadInputTests;

namespace CeramicOptics.Tests.Design;

public class NullInputTests
{
    private static Material Ceramic => BadInputTests.Ceramic;

    /// <summary>
    /// Nothing where something is needed is refused by the name of the parameter, not found out somewhere below.
    /// </summary>
    [Fact]
    public void Null_is_refused_by_name()
    {
        Restoration restoration = Case(Wish);
        MatchOptions options = new([Grade]);
        MatchCandidate candidate = Match.Find(restoration, options).Closest!;
        (string Name, Action Use)[] uses =
        [
            ("restoration", () => BlockingLiner.Find(null!, Ceramic)),
            ("liner", () => BlockingLiner.Find(restoration, null!)),
            ("restoration", () => CementComparison.Find(null!, [])), ("candidate", () => RemedySearch.Find(null!)),
            ("restoration", () => MaskingThickness.Find(null!)),
            ("restoration", () => GradeChoice.Find(null!, [Grade])),
            ("ceramics", () => GradeChoice.Find(restoration, null!)), ("restoration", () => Match.Find(null!, options)),
            ("options", () => Match.Find(restoration, null!)),
            ("restoration", () => ReachableColors.Find(null!, restoration.Zones[0], options)),
            ("zone", () => ReachableColors.Find(restoration, null!, options)),
            ("restoration", () => PredictionUncertainty.Find(null!)),
            ("restoration", () => Stain.Find(null!, new StainOptions(new StainLayer(Ceramic, 0.05), [Ochre(Grid)]))),
            ("options", () => Stain.Find(restoration, null!)),
            ("layer", () => _ = new StainOptions(null!, [Ochre(Grid)])),
            ("lowerFraction", () => GradedSlices.Cut(Ceramic, Ceramic, 1, null!)),
            ("stump", () => _ = new Zone("cervical", null!, 1, Wish)),
            ("reference", () => _ = new Zone("cervical", Substrate.Black, 1, null!)),
            ("criterion", () => _ = new Restoration([Cervical(Wish)], Grade, new Layer(Ceramic, 0.05), null!)),
        ];
        Assert.Single(candidate.Zones);
        Assert.All(uses, use => Assert.Equal(use.Name, Assert.Throws<ArgumentNullException>(use.Use).ParamName));
        Assert.Throws<ArgumentOutOfRangeException>(() => Stack.Reflectance((MeasurementGeometry)99));
    }
}
