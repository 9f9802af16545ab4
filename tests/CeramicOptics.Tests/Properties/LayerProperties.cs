using CeramicOptics.Layers.TwoFlux;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>Physics that must hold for any layer; 1,000 random cases each.</summary>
[Properties(MaxTest = Cases.Many, Arbitrary = [typeof(Generators)])]
public class LayerProperties
{
    [Property]
    public void Energy_is_conserved(LayerInput layer)
    {
        LayerOptics slab = TwoFluxLayer.Slab(layer.K, layer.S, layer.ThicknessMm);
        double sum = slab.ReflectanceFromAbove + slab.TransmittanceDown;
        Assert.InRange(slab.ReflectanceFromAbove, 0, 1);
        Assert.InRange(slab.TransmittanceDown, 0, 1);
        Assert.InRange(sum, 0, 1 + 1e-14);
        if (layer.K == 0)
        {
            Assert.Equal(1, sum, 1e-13);
        }
    }

    [Property]
    public void White_furnace_stays_white(LayerInput layer) =>
        Assert.Equal(1, TwoFluxLayer.Reflectance(0, layer.S, layer.ThicknessMm, 1), 1e-13);

    [Property]
    public void Splitting_a_layer_changes_nothing(LayerInput layer, Fraction part, Fraction backing)
    {
        double upper = layer.ThicknessMm * part.Value, lower = layer.ThicknessMm - upper;
        double whole = TwoFluxLayer.Reflectance(layer.K, layer.S, layer.ThicknessMm, backing.Value);
        double split = TwoFluxLayer.Reflectance(
            layer.K, layer.S, upper, TwoFluxLayer.Reflectance(layer.K, layer.S, lower, backing.Value));
        Assert.Equal(whole, split, 1e-11 * Math.Max(whole, 1e-290));

        LayerOptics composed = TwoFluxLayer.Slab(layer.K, layer.S, upper)
            .Over(TwoFluxLayer.Slab(layer.K, layer.S, lower));
        LayerOptics slab = TwoFluxLayer.Slab(layer.K, layer.S, layer.ThicknessMm);
        Assert.Equal(slab.ReflectanceFromAbove, composed.ReflectanceFromAbove, 1e-10);
        Assert.Equal(slab.TransmittanceDown, composed.TransmittanceDown, 1e-10);
    }

    [Property]
    public void Transmittance_of_a_stack_is_reciprocal(LayerInput first, LayerInput second, Index upper, Index lower)
    {
        LayerOptics stack = TwoFluxLayer.Slab(first.K, first.S, first.ThicknessMm)
            .Over(Boundary.Diffuse(upper.Value, lower.Value))
            .Over(TwoFluxLayer.Slab(second.K, second.S, second.ThicknessMm));

        // Kubelka 1954: equal both ways; between media of different index by the ratio of étendues, n² (conservation of
        // étendue).
        double ratio = lower.Value / upper.Value * (lower.Value / upper.Value);
        Assert.Equal(
            stack.TransmittanceDown, ratio * stack.TransmittanceUp, 1e-12 * Math.Max(stack.TransmittanceDown, 1e-290));
    }

    [Property]
    public void Reflectance_rises_with_the_backing(LayerInput layer, Fraction one, Fraction other)
    {
        (double low, double high) = one.Value <= other.Value ? (one.Value, other.Value) : (other.Value, one.Value);
        double overLow = TwoFluxLayer.Reflectance(layer.K, layer.S, layer.ThicknessMm, low);
        double overHigh = TwoFluxLayer.Reflectance(layer.K, layer.S, layer.ThicknessMm, high);
        Assert.True(overLow <= overHigh * (1 + 1e-13), $"{overLow:R} over {low}, {overHigh:R} over {high}");
        Assert.InRange(overHigh, 0, 1 + 1e-13);
    }

    [Property]
    public void Thick_layers_reach_the_infinite_reflectance(LayerInput layer, Fraction backing)
    {
        double k = Math.Max(layer.K, 1e-2), s = Math.Max(layer.S, 1e-2);
        Assert.Equal(TwoFluxLayer.InfiniteReflectance(k, s), TwoFluxLayer.Reflectance(k, s, 1e4, backing.Value), 1e-13);
    }

    [Property]
    public void Reflectance_never_turns_back_with_thickness(LayerInput layer, Fraction backing, Fraction part)
    {
        double thin = TwoFluxLayer.Reflectance(layer.K, layer.S, layer.ThicknessMm * part.Value, backing.Value);
        double thick = TwoFluxLayer.Reflectance(layer.K, layer.S, layer.ThicknessMm, backing.Value);
        double limit = TwoFluxLayer.InfiniteReflectance(layer.K, layer.S);
        Assert.True(
            (thick - thin) * (limit - backing.Value) >= -1e-13,
            $"{backing.Value} -> {thin:R} -> {thick:R} -> {limit:R}");
    }

    [Property]
    public void Boundaries_conserve_etendue(Index one, Index other)
    {
        LayerOptics boundary = Boundary.Diffuse(one.Value, other.Value);
        double ratio = other.Value / one.Value;
        Assert.Equal(1 - boundary.ReflectanceFromAbove, ratio * ratio * (1 - boundary.ReflectanceFromBelow), 1e-13);
        Assert.Equal(1, boundary.OnBacking(1), 1e-13);
    }

    [Property]
    public void Surface_correction_is_its_own_exact_inverse(Fraction inside, Index index)
    {
        foreach (MeasurementGeometry geometry in Enum.GetValues<MeasurementGeometry>())
        {
            SurfaceCorrection surface = new(geometry, index.Value);
            Assert.Equal(inside.Value, surface.ToInternal(surface.ToMeasured(inside.Value)), 1e-13);
        }
    }

    [Property]
    public void White_body_reads_white_through_any_surface(Index index)
    {
        // A body that absorbs nothing returns all diffuse light; di:8 and d:d then read 1 (energy conservation and
        // reciprocity).
        Assert.Equal(
            1, new SurfaceCorrection(MeasurementGeometry.DiffuseSpecularIncluded, index.Value).ToMeasured(1), 1e-13);
        Assert.Equal(1, new SurfaceCorrection(MeasurementGeometry.DiffuseDiffuse, index.Value).ToMeasured(1), 1e-13);
    }

    /// <summary>
    /// A compiled stack is the stack within its own bound, also with layers that absorb nothing, films of other indices
    /// and shifted stumps.
    /// </summary>
    [Property]
    public void Compiled_stack_is_the_stack(
        CeramicInput upper, CeramicInput lower, StumpInput stump, LayerInput clear, Fraction choice, Fraction thickness)
    {
        Material one = upper.Material(), two = lower.Material();
        Material three = new(
            "extreme", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(one.Grid, clear.K),
            ScatteringSpectrum.Uniform(one.Grid, Math.Min(clear.S, 100)), 1.5);
        Substrate substrate = choice.Value < 0.2 ? Substrate.White : choice.Value < 0.4
            ? Substrate.OpaqueMetal("post", ReflectanceSpectrum.Uniform(one.Grid, 0.6)) : stump.Substrate("stump");
        CouplingMedium? film = choice.Value > 0.7 ? CouplingMedium.Air : null;
        double[] mm = [2 * thickness.Value, upper.DiscMm, Math.Min(clear.ThicknessMm, 3)];
        LayerStack stack = new(
            [new Layer(one, mm[0]), new Layer(two, mm[1]), new Layer(three, mm[2])], substrate, film);
        MeasurementGeometry geometry = choice.Value > 0.5
            ? MeasurementGeometry.FortyFiveZero
            : MeasurementGeometry.DiffuseSpecularIncluded;
        for (int layer = 0; layer < 3; layer++)
        {
            StackResponse response = stack.Compile(
                geometry, [new VariableThickness(layer, new ThicknessRange(0.001, 3))]);
            double at = Math.Max(0.001, mm[layer]);
            foreach (Substrate under in (Substrate[])[substrate, substrate.Shifted(0.05)])
            {
                ReflectanceSpectrum expected = stack.WithThickness(layer, at).WithSubstrate(under)
                    .Reflectance(geometry), actual = response.Reflectance(under, at);
                for (int i = 0; i < one.Grid.Count; i++)
                {
                    // Light that hardly anything absorbs returns so often that rounding alone reaches 1e-10; above S =
                    // 100 more.
                    Assert.InRange(Math.Abs(expected[i] - actual[i]), 0, Math.Max(1e-9, response.ErrorBound));
                }
            }
        }
    }
}
