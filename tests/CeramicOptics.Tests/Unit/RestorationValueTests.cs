using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.WallData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// The question is a value: equal when all of it is equal, and out of reach of the lists it was made from.
/// </summary>
public class RestorationValueTests
{
    private static readonly WallData Data = Coarse("two-flux");

    /// <summary>The area that decisions judge a target by is the one given.</summary>
    [Fact]
    public void A_target_keeps_the_area_it_was_read_over()
    {
        const MeasurementGeometry Included = MeasurementGeometry.DiffuseSpecularIncluded;
        ReflectanceSpectrum read = ReflectanceSpectrum.Uniform(Data.Grid, 0.5);
        ReadingArea window = ReadingArea.Circular(2, 3);
        Assert.Equal(window, Target.FromReflectance("wish", read, Included, window).Area);
        Assert.Equal(window, Target.FromColor("wish", new(70, 1, 9), Lights[0], Included, window).Area);
        Assert.Equal(ReadingArea.NotStated, Target.FromReflectance("wish", read, Included).Area);
        Assert.Equal(ReadingArea.NotStated, Target.FromColor("wish", new(70, 1, 9), Lights[0], Included).Area);
    }

    /// <summary>Room for just what the range and strength ask is room enough.</summary>
    [Fact]
    public void Room_at_its_limit_is_no_problem()
    {
        int Problems(double availableMm, double strengthMm) => Crown().WithZones([
            new Zone("edge", Data.Good, availableMm, MaskingReference.SelfBacked)
            {
                Strength = StrengthLimit.Of(strengthMm),
            }]).FindProblems().Count;
        Assert.Equal(0, Problems(0.8, 0.8));
        Assert.Equal(1, Problems(0.8, 0.81));
        Assert.Equal(0, Problems(0.2, 0.1));
        Assert.Equal(1, Problems(0.19, 0.1));
        Assert.Equal(0, Problems(3, 0.1));
        Assert.Equal(1, Problems(3.01, 0.1));
    }

    [Fact]
    public void Equal_questions_are_equal()
    {
        Assert.True(new ViewingConditions() == new ViewingConditions());
        Assert.Equal(new ViewingConditions().GetHashCode(), new ViewingConditions().GetHashCode());
        Assert.True(
            new ViewingConditions { Colorimeters = [Lights[0],
            Lights[1]] } == new ViewingConditions { Colorimeters = Lights });
        Assert.True(
            new ViewingConditions { Colorimeters = [Lights[1],
            Lights[0]] } != new ViewingConditions { Colorimeters = Lights });
        Assert.True(new InputUncertainty() == new InputUncertainty());
        Assert.True(StrengthLimit.Of(0.8) == StrengthLimit.Of(0.8));
        Assert.True(StrengthLimit.Of(0.8) != StrengthLimit.Of(0.8, StrengthScope.CoreAndVeneer));
        Assert.True(Cervical() == Cervical());
        Assert.True(Cervical() != Cervical(1.1));
        Assert.True(Cervical().WithWall(1.1) == Cervical(1.1));
        Assert.True(Crown() == Crown());
        Assert.Equal(Crown().GetHashCode(), Crown().GetHashCode());
        Assert.True(
            Crown() with { Veneer = Veneer.OfShare(Data.Enamel,
            0.3) } == Crown() with { Veneer = Veneer.OfShare(Data.Enamel, 0.3) });
        foreach (Restoration other in (Restoration[])
            [
                Crown().WithZones([Cervical(1.1)]),
                Crown().WithZones([Cervical(), new Zone("edge", Data.Good, 1, MaskingReference.SelfBacked)]),
                Crown().WithCore(Data.Times(1, 2)),
                Crown().WithCement(new Layer(Data.Film, 0.06)),
                Crown().Unbonded(CouplingMedium.Water),
                Crown() with { Veneer = Veneer.OfThickness(Data.Enamel, 0.3) },
                Crown() with { Glaze = new Layer(Data.Glaze, 0.05) },
                Crown() with { Liner = new Layer(Data.Dense, 0.05) },
                Crown() with { Viewing = TwoLights },
                Crown() with { Uncertainty = Sure },
                Crown() with { WallRange = new ThicknessRange(0.3, 3) },
            ])
        {
            Assert.False(Crown() == other);
        }
    }

    [Fact]
    public void A_core_of_another_grid_than_any_other_layer_is_refused()
    {
        WavelengthGrid fine = WavelengthGrid.Range(400, 700, 10);
        Ceramic other = new("family", 1, new Material(
            "fine", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(fine, 0.1), ScatteringSpectrum.Uniform(fine, 3),
            1.5));
        Restoration bare = Crown().Unbonded(CouplingMedium.Water);
        Assert.Equal(other, bare.WithCore(other).Core);
        foreach (Restoration crown in (Restoration[])
            [
                Crown(),
                bare with { Veneer = Veneer.OfThickness(Data.Enamel, 0.3) },
                bare with { Glaze = new Layer(Data.Glaze, 0.05) },
                bare with { Liner = new Layer(Data.Dense, 0.05) },
            ])
        {
            Assert.Throws<ArgumentException>(() => crown.WithCore(other));
        }
    }

    [Fact]
    public void Lists_of_the_caller_that_change_afterwards_change_nothing()
    {
        List<Zone> zones = [Cervical()];
        Restoration crown = new(zones, Core, Cement, ColorCriterion.AcceptabilityThreshold);
        Restoration again = Crown().WithZones(zones);
        zones[0] = Cervical(0.5);
        zones.Add(Cervical());
        Assert.Equal(Crown(), crown);
        Assert.Equal(Crown(), again);

        Colorimeter[] lights = [Lights[0], Lights[1]];
        ViewingConditions viewing = new() { Colorimeters = lights };
        lights[0] = Lights[1];
        Assert.Equal(TwoLights, viewing);

        LayerPart[] parts = [new(0, 0.3), new(1, 0.7)];
        VariableThickness varied = new(parts, new ThicknessRange(0.2, 3));
        parts[0] = new(0, 1);
        Assert.Equal(new VariableThickness([new(0, 0.3), new(1, 0.7)], new ThicknessRange(0.2, 3)), varied);

        Layer[] layers = [new(Data.Body, 1)];
        LayerStack stack = new(layers, Data.Dark);
        layers[0] = new(Data.Film, 1);
        Assert.Same(Data.Body, stack.Layers[0].Material);
    }

    private static readonly Ceramic Core = new("made up", 1, Data.Body);

    private static readonly Layer Cement = new(Data.Film, 0.05);

    private static Zone Cervical(double availableMm = 1.2) =>
        new("cervical", Data.Dark, availableMm, MaskingReference.SelfBacked);

    private static Restoration Crown() => new([Cervical()], Core, Cement, ColorCriterion.AcceptabilityThreshold);
}
