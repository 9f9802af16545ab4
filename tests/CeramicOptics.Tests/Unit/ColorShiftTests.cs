using CeramicOptics.Decisions;
using static CeramicOptics.Tests.InventedData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Differences in words: parts of CIELAB, the largest first.</summary>
public class ColorShiftTests
{
    [Fact]
    public void Words_tell_the_weightiest_part_first()
    {
        Lab tooth = new(75, 2, 16);
        string Between(Lab color) => new LimitingCase(1, 0, BrownTooth, Lights[0], tooth, color).Shift.ToString();
        Assert.Equal("less than 0.5 in each of L*, a*, b*", Between(tooth));
        Assert.Equal("too dark by 6.0", Between(tooth with { L = 69 }));
        Assert.Equal("too light by 6.0", Between(tooth with { L = 81 }));
        Assert.Equal("too yellow by 8.0, too red by 1.0", Between(new Lab(75, 3, 24)));
        Assert.Equal("too red by 6.0, too blue by 1.0", Between(new Lab(75, 8, 15)));
        Assert.Equal("too dark by 10.0, too blue by 4.0", Between(new Lab(65, 1.6, 12)));
    }

    /// <summary>
    /// Yellow and blue are of b*, red and green of a*; hue angles grow from red (0°) over yellow (90°) and green (180°)
    /// to blue (270°).
    /// </summary>
    [Theory]
    [InlineData(20, 5, "too yellow", "too blue")]
    [InlineData(-5, 20, "too green", "too red")]
    [InlineData(-20, -5, "too blue", "too yellow")]
    [InlineData(5, -20, "too red", "too green")]
    public void A_turn_of_hue_is_named_by_the_axis_along_which_it_goes(double a, double b, string onward, string back)
    {
        Lab reference = new(60, a, b);
        Lab Turned(double degrees) => Lab.FromLch(60, reference.Chroma, reference.HueDegrees + degrees);
        Assert.StartsWith(onward + " by ", new ColorShift(reference, Turned(20), true).ToString());
        Assert.StartsWith(back + " by ", new ColorShift(reference, Turned(-20), true).ToString());
    }
}
