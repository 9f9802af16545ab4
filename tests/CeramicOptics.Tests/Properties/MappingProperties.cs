using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

public class MappingProperties
{
    private const double MinMm = 0.3, MaxMm = 2.0;

    /// <summary>A map equals the plain evaluation of the stack within its stated bound: any thickness, order, length, zone and number of threads.</summary>
    [Property(MaxTest = 300, Arbitrary = [typeof(Generators)])]
    public void Map_is_the_stack_within_its_bound(CeramicInput ceramic, StumpInput one, StumpInput other, StumpInput good, Fraction[] thicknesses, Fraction choice)
    {
        Material material = ceramic.Material(), cement = new("cement", AbsorptionSpectrum.Uniform(material.Grid, 0.03), ScatteringSpectrum.Uniform(material.Grid, 1), 1.52);
        Substrate[] stumps = [one.Substrate("one"), other.Substrate("other")];
        LayerStack stack = new([new Layer(material, 1), new Layer(cement, 0.05)], stumps[0]);
        MaskingReference reference = choice.Value < 0.3 ? MaskingReference.SelfBacked
            : choice.Value < 0.6 ? MaskingReference.Over(good.Substrate("good"))
            : MaskingReference.Target("target", stack.WithSubstrate(good.Substrate("good")).Reflectance());
        ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] };
        ColorCriterion criterion = ceramic.DiscMm < 0.6 ? ColorCriterion.AcceptableMatchCielab : ColorCriterion.AcceptableMatch;
        ThicknessMap map = new(stumps.Select(stump => ThicknessResponse.Compile(stack.WithSubstrate(stump), 0, (MinMm, MaxMm), reference, criterion, conditions)));

        double[] mm = [.. thicknesses.Select(item => MinMm + ((MaxMm - MinMm) * item.Value))], differences = new double[mm.Length], parallel = new double[mm.Length];
        byte[] zones = [.. mm.Select((_, i) => (byte)(i % 2))];
        Lab[] colors = new Lab[mm.Length];
        map.Differences(mm, differences, zones);
        map.Colors(mm, colors, zones);
        map.Differences(mm, parallel, zones, threads: 3);
        Assert.Equal(differences, parallel);
        for (int i = 0; i < mm.Length; i++)
        {
            ThicknessResponse zone = map.Zones[zones[i]];
            Substrate stump = stumps[zones[i]];
            Lab color = Colorimeter.D65TwoDegree.ToLab(stack.WithThickness(0, mm[i]).WithSubstrate(stump).Reflectance());
            Assert.InRange(ColorDifference.Cie76(color, colors[i]), 0, Math.Min(zone.ErrorBound, ThicknessResponse.WantedError));

            // Where hues pass opposition CIEDE2000 jumps; the bound then exceeds what is wanted, and says so.
            double expected = MaskingThickness.WorstDifferences(stack, 0, [mm[i]], reference, criterion, [stump], conditions)[0].Difference;
            Assert.InRange(Math.Abs(expected - differences[i]), 0, zone.ErrorBound);
            Assert.Equal(differences[i], zone.DifferenceAt(mm[i]));
        }
    }
}
