using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// What a user got wrong comes as values, in words of a language, and apart from errors of the program.
/// </summary>
public class InputProblemTests
{
    private static readonly WallData Data = WallData.Coarse("two-flux");

    [Fact]
    public void A_refused_value_comes_with_its_quantity_and_range()
    {
        Assert.False(InputProblem.Try(
            () => new Zone("cervical", Data.Dark, -0.3, MaskingReference.SelfBacked), out Zone? zone,
            out InputProblem? problem));
        Assert.Null(zone);
        Assert.Equal(
            (InputProblemKind.OutOfRange, "available thickness", "cervical", -0.3, "mm", 0.001, 100),
            (problem.Kind, problem.Quantity, problem.Subject, problem.Value, problem.Unit, problem.Minimum,
                problem.Maximum));
        Assert.Equal("available thickness of 'cervical' must be 0.001 to 100 mm but is -0.3 mm", problem.ToString());
        Assert.Equal(
            "verfügbare Wandstärke von „zervikal“ muss zwischen 0,001 und 100 mm liegen, ist aber -0,3 mm",
            problem.ToString(Language.German));
    }

    [Theory]
    [InlineData(120, 0, 0, "L*", 120.0, 0.0, 100.0)]
    [InlineData(50, double.NaN, 0, "a*", double.NaN, -1000.0, 1000.0)]
    [InlineData(95, 80, 0, "colour", null, null, null)]
    [InlineData(80, 0, -120, "colour", null, null, null)]
    [InlineData(78, 2, 200, "colour", null, null, null)]
    public void An_impossible_colour_is_a_problem(
        double l, double a, double b, string quantity, double? value, double? minimum, double? maximum)
    {
        Assert.False(InputProblem.Try(
            () => Target.FromColor(
                "wish", new Lab(l, a, b), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded),
            out _, out InputProblem? problem));
        Assert.Equal(
            (quantity, value, minimum, maximum), (problem.Quantity, problem.Value, problem.Minimum, problem.Maximum));
        Assert.Equal(
            quantity == "colour" ? InputProblemKind.ImpossibleColor : InputProblemKind.OutOfRange, problem.Kind);
    }

    /// <summary>White, black, a bright yellow and the limits of a reading are colours that a body can have.</summary>
    [Theory]
    [InlineData(100, 0, 0)]
    [InlineData(0, 0, 0)]
    [InlineData(99, 1, 1)]
    [InlineData(90, -5, 80)]
    public void A_possible_colour_is_a_target(double l, double a, double b) => Assert.True(InputProblem.Try(
        () => Target.FromColor(
            "wish", new Lab(l, a, b), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded),
        out _, out _));

    /// <summary>Text has six digits where these show what is wrong, and all where they do not.</summary>
    [Theory]
    [InlineData(0.01, "must be 0.0452047 to 1 but is 0.01")]
    [InlineData(1.00002, "must be 0.0452047 to 1 but is 1.00002")]
    [InlineData(1.000002, "must be 0.04520474548218141 to 1 but is 1.000002")]
    public void Text_is_short_where_it_can_be(double reflectance, string text)
    {
        // F(8°) of index 1.54 is 0.0452047.
        Assert.False(InputProblem.Try(
            () => Substrate.FromMeasuredReflectance(
                "stump", ReflectanceSpectrum.Uniform(Data.Grid, reflectance), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded),
            out _, out InputProblem? problem));
        Assert.Equal("reflectance of 'stump' " + text, problem.ToString());
    }

    [Fact]
    public void Quantities_of_a_form_are_translated()
    {
        Assert.False(InputProblem.Try(
            () => new Layer(Data.Body, -1), out _, out InputProblem? problem));
        Assert.Equal("Dicke muss zwischen 0 und 100 mm liegen, ist aber -1 mm", problem.ToString(Language.German));
    }

    /// <summary>A reading that comes from a colour says so, since no spectrum was given.</summary>
    [Fact]
    public void A_stump_too_dark_by_its_colour_says_so()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
            () => Substrate.FromMeasuredColor(
                "stump", new Lab(10, 0, 0), Colorimeter.D65TwoDegree, WavelengthGrid.Range(400, 700, 20), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded));
        Assert.Contains("by its colour reads", error.Message, StringComparison.Ordinal);
        Assert.Contains("check colour, geometry and index", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stump_darker_than_its_surface_names_what_it_can_read()
    {
        Assert.False(InputProblem.Try(
            () => Substrate.FromMeasuredReflectance("stump", ReflectanceSpectrum.Uniform(Data.Grid, 0.01), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded), out _,
            out InputProblem? problem));
        Assert.Equal(("reflectance", "stump", 0.01), (problem.Quantity, problem.Subject, problem.Value));
        Assert.InRange(problem.Minimum!.Value, 0.03, 0.06);
    }

    [Fact]
    public void The_room_of_all_zones_is_checked_at_once_and_before_the_decision()
    {
        Zone Of(string name, double mm) => new(name, Data.Dark, mm, MaskingReference.SelfBacked);
        Restoration crown = Data.Crown(Of("cervical", 0.6))
            .WithZones([Of("cervical", 0.6), Of("body", 12), Of("incisal", 1.2)])
            .WithCore(new Ceramic("family", 1, Data.Dense) { Strength = StrengthLimit.Of(0.8) });
        Assert.Equal(
            [(InputProblemKind.TooLittleRoom, "cervical", 0.8),
                (InputProblemKind.OutOfRange, "body", crown.WallRange.MinMm)],
            crown.FindProblems().Select(item => (item.Kind, item.Subject, item.Minimum!.Value)));
        Assert.Equal(
            "available thickness of 'cervical' is 0.6 mm, but strength requires 0.80 mm",
            crown.FindProblems()[0].ToString());
        Assert.Empty(crown.WithZones([Of("incisal", 1.2), Of("just enough", 0.8)]).FindProblems());

        // The decision refuses the same zone for the same reason.
        InputProblem refused = InputProblem.Of(
            Assert.Throws<ArgumentOutOfRangeException>(() => MaskingThickness.Find(crown)))!;
        Assert.Equal($"{crown.FindProblems()[1]}", $"{refused}");
    }

    [Fact]
    public void A_reading_that_no_window_gives_is_a_problem()
    {
        ReflectanceSpectrum read = ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 100), 0.9);
        Assert.False(InputProblem.Try(
            () => WindowCorrection.Find(
                "tooth", read, MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Circular(2, 2),
                new BodyScattering(1.54, 1, 0)),
            out _, out InputProblem? problem));
        Assert.Equal(("reflectance", "tooth", 0.9), (problem.Quantity, problem.Subject, problem.Value!.Value));
        Assert.True(problem.Maximum < 0.9);
    }

    [Fact]
    public void An_error_of_the_program_passes()
    {
        Assert.Throws<ArgumentNullException>(() => InputProblem.Try(
            () => new Zone("cervical", null!, 1, MaskingReference.SelfBacked), out _, out _));
        Assert.Throws<ArgumentException>(() => InputProblem.Try(
            () => Data.Crown(new Zone("a", Data.Dark, 1, MaskingReference.SelfBacked)).WithZones([]), out _, out _));
        Assert.Null(InputProblem.Of(new ArgumentOutOfRangeException("x")));
        Assert.True(InputProblem.Try(() => new Layer(Data.Dense, 1), out Layer? made, out InputProblem? none));
        Assert.Equal((1, true), (made.ThicknessMm, none is null));
    }
}
