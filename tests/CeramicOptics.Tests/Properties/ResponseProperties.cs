using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>
/// A compiled stack keeps to its stated bound, whatever the layers: against direct evaluation at random thicknesses.
/// </summary>
public class ResponseProperties
{
    [Property(MaxTest = Cases.Some, Arbitrary = [typeof(Generators)])]
    public void The_bound_holds_in_two_flux_theory(
        CeramicInput ceramic, LayerInput below, StumpInput stump, Fraction from, Fraction at, Fraction choice) =>
        Bound_holds("two-flux", ceramic, below, stump, from.Value, at.Value, choice.Value);

    [Property(MaxTest = Cases.Few, Arbitrary = [typeof(Generators)])]
    public void The_bound_holds_in_radiative_transfer(
        CeramicInput ceramic, LayerInput below, StumpInput stump, Fraction from, Fraction at, Fraction choice) =>
        Bound_holds("transport", ceramic, below, stump, from.Value, at.Value, choice.Value);

    // A ceramic over a layer of any strength, up to one that is clear or black; ranges from nothing or not; every
    // geometry; one thickness or two.
    private static void Bound_holds(
        string model, CeramicInput input, LayerInput below, StumpInput stump, double from, double at, double choice)
    {
        WallData data = WallData.Coarse(model);
        Material ceramic = data.Make("ceramic", input.KFloor, input.KBlue, input.S550, input.Index);
        Material under = data.Make("under", Math.Min(below.K, 50), 0, Math.Min(below.S, 50), 1.5);
        Substrate body = data.Stump("body", stump.Blue, stump.Red);
        LayerStack stack = new(
            [new Layer(ceramic, 1), new Layer(under, Math.Min(below.ThicknessMm, 2))], body,
            choice > 0.8 ? CouplingMedium.Water : null);
        MeasurementGeometry geometry = (MeasurementGeometry)(int)(5.99 * choice);
        ThicknessRange wall = new(from < 0.3 ? 0 : from, 0.5 + (3 * input.DiscMm));
        double mm = Math.Min(wall.MaxMm, wall.MinMm + (at * (wall.MaxMm - wall.MinMm)));
        VariableThickness first = new(0, wall);
        bool isOfTwo = choice < 0.2;
        ThicknessRange film = new(0, 0.2);
        StackResponse response = stack.Compile(geometry, isOfTwo ? [first, new VariableThickness(1, film)] : [first]);
        LayerStack direct = isOfTwo
            ? stack.WithThickness(0, mm).WithThickness(1, 0.2 * from)
            : stack.WithThickness(0, mm);
        double[] thicknesses = isOfTwo ? [mm, 0.2 * from] : [mm];
        foreach (Substrate substrate in (Substrate[])[body, data.Stump("black", 0, 0), data.Stump("white", 1, 1)])
        {
            ReflectanceSpectrum expected = direct.WithSubstrate(substrate).Reflectance(geometry);
            ReflectanceSpectrum found = response.Reflectance(substrate, thicknesses);
            for (int i = 0; i < data.Grid.Count; i++)
            {
                Assert.InRange(found[i], expected[i] - response.ErrorBound, expected[i] + response.ErrorBound);
            }
        }

        TransmittanceSpectrum passing = direct.Transmittance(geometry), passed = response.Transmittance(thicknesses);
        Assert.InRange(
            Enumerable.Range(0, data.Grid.Count).Max(i => Math.Abs(passing[i] - passed[i])), 0, response.ErrorBound);
    }
}
