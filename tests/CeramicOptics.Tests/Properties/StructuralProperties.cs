using CeramicOptics.Decisions.Masking;
using CeramicOptics.Restorations;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

/// <summary>No recommendation without a strength limit, nor below it, whatever the restoration.</summary>
public class StructuralProperties
{
    [Property(MaxTest = Cases.Some, Arbitrary = [typeof(Generators)])]
    public void Nothing_is_recommended_below_the_structural_minimum(
        CeramicInput ceramic, StumpInput stump, Fraction core, Fraction zone, Fraction scope, Fraction veneer,
        Fraction available)
    {
        WallData data = WallData.Coarse("two-flux");
        StrengthLimit Limit(double value, double which) => value < 0.4 ? StrengthLimit.NotGiven
            : StrengthLimit.Of(
                0.1 + (2.5 * (value - 0.4)), which < 0.5 ? StrengthScope.Core : StrengthScope.CoreAndVeneer);
        Zone cervical = new(
            "cervical", data.Stump("stump", stump.Blue, stump.Red), 0.5 + available.Value,
            MaskingReference.SelfBacked) { Strength = Limit(zone.Value, scope.Value * 2 % 1) };
        Material material = data.Make("ceramic", ceramic.KFloor, ceramic.KBlue, 3 * ceramic.S550, ceramic.Index);
        Restoration crown = data.Crown(cervical)
            .WithCore(new Ceramic("made up", 1, material) { Strength = Limit(core.Value, scope.Value) }) with
        {
            Veneer = veneer.Value < 0.3
                ? null
                : veneer.Value < 0.6
                ? Veneer.OfShare(data.Enamel, veneer.Value)
                : Veneer.OfThickness(data.Enamel, veneer.Value - 0.5),
        };
        MaskingResult result = MaskingThickness.Find(crown, new MaskingOptions { Samples = 256 });
        MinimumThickness minimum = result.Zones[0].Minimum;

        // By hand: what is left for the core at a wall, and the wall that a limit asks for.
        double? wanted = null;
        foreach (StrengthLimit limit in (StrengthLimit[])[crown.Core.Strength, cervical.Strength])
        {
            if (limit.MinimumMm is double mm)
            {
                double wall = limit.Scope == StrengthScope.CoreAndVeneer || crown.Veneer is null ? mm
                    : crown.Veneer.Share > 0 ? mm / (1 - crown.Veneer.Share) : mm + crown.Veneer.ThicknessMm;
                wanted = wanted is double other ? Math.Max(other, wall) : wall;
            }
        }

        Assert.Equal(wanted is null, minimum.StructuralMm is null);
        Assert.Equal(wanted ?? 0, minimum.StructuralMm ?? 0, 1e-12);
        if (wanted is null)
        {
            Assert.Null(minimum.RecommendedMm);
            Assert.Contains(result.Cautions, caution => caution.Kind == CautionKind.StrengthLimitNotGiven);
        }
        else if (minimum.RecommendedMm is double recommended)
        {
            Assert.Equal(Math.Max(wanted.Value, minimum.ReliableMm!.Value), recommended, 1e-12);
            Assert.InRange(MinimumThickness.RoundedUp(recommended), wanted.Value - 1e-12, 3.01);
            LayerStack made = crown.StackOver(cervical.Stump, recommended);
            double ofCore = made.Layers[crown.Veneer is null ? 0 : 1].ThicknessMm;
            bool countsBoth = crown.Core.Strength.Scope == StrengthScope.CoreAndVeneer;
            Assert.True(countsBoth || !(ofCore < crown.Core.Strength.MinimumMm - 1e-12));
        }
        else
        {
            Assert.True(minimum.ReliableMm is null || wanted > 3);
        }

        Assert.Equal(
            wanted > cervical.AvailableMm + 1e-12,
            result.Cautions.Any(caution => caution.Kind == CautionKind.BelowStructuralMinimum));
        Assert.False(result.IsReliable && wanted > cervical.AvailableMm + 1e-12);
    }
}
