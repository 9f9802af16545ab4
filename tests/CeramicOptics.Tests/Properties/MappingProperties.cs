using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Tests.Unit;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

public class MappingProperties
{
    private const double MinMm = 0.3, MaxMm = 2.0;

    private const int PlainPoints = 12;

    // How thick the wall must be is not asked here.
    private static readonly MaskingOptions Quick = new() { Samples = 256 };

    private static readonly Colorimeter[] Lights = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    private static readonly Layer Cement = new(
        new Material(
            "cement", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(CeramicInput.Grid, 0.03),
            ScatteringSpectrum.Uniform(CeramicInput.Grid, 1), 1.52),
        0.05);

    /// <summary>
    /// A map equals the plain evaluation of the stack within its stated bound: any thickness, order, length, zone and
    /// number of threads. The first points are evaluated plainly, all others equal their response alone.
    /// </summary>
    [Property(MaxTest = 2 * Cases.Few, Arbitrary = [typeof(Generators)])]
    public void Map_is_the_stack_within_its_bound(
        CeramicInput ceramic, StumpInput one, StumpInput other, StumpInput good, Fraction[] thicknesses,
        Fraction choice)
    {
        Material material = ceramic.Material();
        Substrate[] stumps = [one.Substrate("one"), other.Substrate("other")];
        ColorReference reference = Reference(choice, good, new Layer(material, 1));
        ColorCriterion criterion = Criterion(ceramic);
        Restoration crown = new(
            stumps.Select(stump => new Zone(stump.Name, stump, 1, reference)), new Ceramic("invented", 1, material),
            Cement, criterion)
        {
            WallRange = new ThicknessRange(MinMm, MaxMm),
            Viewing = new ViewingConditions { Colorimeters = Lights },
        };
        ThicknessMap map = new(crown.Zones.Select(zone => ThicknessResponse.Compile(crown, zone, Quick)));

        double[] mm = [.. thicknesses.Select(item => MinMm + ((MaxMm - MinMm) * item.Value))];
        double[] differences = new double[mm.Length], parallel = new double[mm.Length];
        byte[] zones = [.. mm.Select((_, i) => (byte)(i % 2))];
        Lab[] colors = new Lab[mm.Length];
        map.Differences(mm, differences, zones);
        map.Colors(mm, colors, zones);
        map.Differences(mm, parallel, zones, threads: 3);
        Assert.Equal(differences, parallel);
        for (int i = 0; i < mm.Length; i++)
        {
            ThicknessResponse zone = map.Zones[zones[i]];
            Assert.Equal(differences[i], zone.DifferenceAt(mm[i]));
            if (i >= PlainPoints)
            {
                continue;
            }

            (Lab color, double expected) = MapData.PlainOn(
                Cement, stumps[zones[i]], reference, criterion, new Layer(material, mm[i]));
            Assert.InRange(
                ColorDifference.Cie76(color, colors[i]), 0, Math.Min(zone.ErrorBound, ThicknessResponse.WantedError));

            // Where hues pass opposition CIEDE2000 jumps; the bound then exceeds what is wanted, and says so.
            Assert.InRange(Math.Abs(expected - differences[i]), 0, zone.ErrorBound);
        }
    }

    /// <summary>The same with veneer and core that both vary.</summary>
    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void Map_of_two_layers_is_the_stack_within_its_bound(
        CeramicInput veneer, CeramicInput core, StumpInput one, StumpInput good, Fraction[] veneers, Fraction[] cores,
        Fraction choice)
    {
        Material upper = veneer.Material(), lower = core.Material();
        Substrate stump = one.Substrate("one");
        ColorReference reference = Reference(choice, good, new Layer(upper, 1), new Layer(lower, 1));
        ColorCriterion criterion = Criterion(veneer);
        Restoration crown = new(
            [new Zone("one", stump, 1, reference)], new Ceramic("invented", 1, lower), Cement, criterion)
        {
            Veneer = Veneer.OfShare(upper, 0.5),
            Viewing = new ViewingConditions { Colorimeters = Lights },
        };
        TwoLayerResponse response = TwoLayerResponse.Compile(
            crown, crown.Zones[0], new ThicknessRange(MinMm, MaxMm), new ThicknessRange(0, 1), Quick);

        int count = Math.Min(veneers.Length, cores.Length);
        double[] veneerMm = [.. veneers.Take(count).Select(item => MinMm + ((MaxMm - MinMm) * item.Value))];
        double[] coreMm = [.. cores.Take(count).Select(item => item.Value)];
        double[] differences = new double[count], parallel = new double[count];
        Lab[] colors = new Lab[count];
        TwoLayerMap map = new([response]);
        map.Differences(veneerMm, coreMm, differences);
        map.Differences(veneerMm, coreMm, parallel, default, threads: 3);
        map.Colors(veneerMm, coreMm, colors);
        Assert.Equal(differences, parallel);
        for (int i = 0; i < count; i++)
        {
            Assert.Equal(differences[i], response.DifferenceAt(veneerMm[i], coreMm[i]));
            if (i >= PlainPoints)
            {
                continue;
            }

            (Lab color, double expected) = MapData.PlainOn(
                Cement, stump, reference, criterion, new Layer(upper, veneerMm[i]), new Layer(lower, coreMm[i]));
            Assert.InRange(ColorDifference.Cie76(color, colors[i]), 0, ThicknessResponse.WantedError);
            Assert.InRange(Math.Abs(expected - differences[i]), 0, response.ErrorBound);
        }
    }

    private static ColorCriterion Criterion(CeramicInput ceramic) =>
        ceramic.DiscMm < 0.6 ? ColorCriterion.AcceptabilityThresholdCielab : ColorCriterion.AcceptabilityThreshold;

    private static ColorReference Reference(Fraction choice, StumpInput good, params Layer[] wall) =>
        choice.Value < 0.3 ? MaskingReference.SelfBacked
        : choice.Value < 0.6 ? MaskingReference.Over(good.Substrate("good"))
        : Target.FromReflectance(
            "target", new LayerStack([.. wall, Cement], good.Substrate("good")).Reflectance(),
            MeasurementGeometry.DiffuseSpecularIncluded);
}
