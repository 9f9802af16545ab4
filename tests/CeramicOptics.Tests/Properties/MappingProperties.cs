using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

public class MappingProperties
{
    private const double MinMm = 0.3, MaxMm = 2.0;

    /// <summary>A map equals the plain evaluation of the stack within its stated bound: any thickness, order, length, zone and number of threads.</summary>
    [Property(MaxTest = Cases.Some, Arbitrary = [typeof(Generators)])]
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

    /// <summary>The same with two thicknesses that vary.</summary>
    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void Map_of_two_layers_is_the_stack_within_its_bound(CeramicInput veneer, CeramicInput core, StumpInput one, StumpInput good, Fraction[] uppers, Fraction[] lowers, Fraction choice)
    {
        Material upper = veneer.Material(), lower = core.Material(), cement = new("cement", AbsorptionSpectrum.Uniform(upper.Grid, 0.03), ScatteringSpectrum.Uniform(upper.Grid, 1), 1.52);
        Substrate stump = one.Substrate("one");
        LayerStack stack = new([new Layer(upper, 1), new Layer(lower, 1), new Layer(cement, 0.05)], stump);
        MaskingReference reference = choice.Value < 0.3 ? MaskingReference.SelfBacked
            : choice.Value < 0.6 ? MaskingReference.Over(good.Substrate("good"))
            : MaskingReference.Target("target", stack.WithSubstrate(good.Substrate("good")).Reflectance());
        ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree] };
        ColorCriterion criterion = veneer.DiscMm < 0.6 ? ColorCriterion.AcceptableMatchCielab : ColorCriterion.AcceptableMatch;
        TwoLayerResponse response = TwoLayerResponse.Compile(stack, 0, (MinMm, MaxMm), 1, (0, 1), reference, criterion, conditions);

        int count = Math.Min(uppers.Length, lowers.Length);
        double[] upperMm = [.. uppers.Take(count).Select(item => MinMm + ((MaxMm - MinMm) * item.Value))], lowerMm = [.. lowers.Take(count).Select(item => item.Value)];
        double[] differences = new double[count], parallel = new double[count];
        Lab[] colors = new Lab[count];
        TwoLayerMap map = new([response]);
        map.Differences(upperMm, lowerMm, differences);
        map.Differences(upperMm, lowerMm, parallel, default, threads: 3);
        map.Colors(upperMm, lowerMm, colors);
        Assert.Equal(differences, parallel);
        for (int i = 0; i < count; i++)
        {
            LayerStack exact = stack.WithThickness(0, upperMm[i]).WithThickness(1, lowerMm[i]);
            Assert.InRange(ColorDifference.Cie76(Colorimeter.D65TwoDegree.ToLab(exact.Reflectance()), colors[i]), 0, ThicknessResponse.WantedError);
            double expected = MaskingThickness.WorstDifferences(exact, 1, [lowerMm[i]], reference, criterion, [stump], conditions)[0].Difference;
            Assert.InRange(Math.Abs(expected - differences[i]), 0, response.ErrorBound);
            Assert.Equal(differences[i], response.DifferenceAt(upperMm[i], lowerMm[i]));
        }
    }
}
