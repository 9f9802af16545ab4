using CeramicOptics.Decisions.Masking;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// The reliable thickness over a spot by its definition: pieces with every input drawn, each solved with its spot, are
/// counted. The library draws nothing around the spot but over a stump that looks like it, and adds the anisotropy.
/// </summary>
public class SpotMaskingByDefinitionTests
{
    private const double Scale = 0.03;

#if LONG_RUN
    private const int Pieces = 3000;
#else
    private const int Pieces = 80;
#endif

    private const int Fewer = Pieces / 3;

    private static readonly WallData Data = WallData.Coarse("transport");

    private static readonly (double Scattering, double Index, double RadiusMm)[] Cases =
        [(3.0, 1.53, 1.5), (1.2, 1.53, 0.7), (8.0, 2.15, 1.0)];

    [Fact]
    public void The_stated_share_of_pieces_hides_the_spot()
    {
        double mean = 0;
        for (int i = 0; i < Cases.Length; i++)
        {
            mean += ShareHidden(i) / Cases.Length;
        }

        // All together tell more than each alone.
        Assert.InRange(mean, 0.95 - Spread(Cases.Length * Pieces), 1);
    }

    // Three standard deviations of the counting.
    private static double Spread(int pieces) => 3 * Math.Sqrt(0.95 * 0.05 / pieces);

    // At the reliable thickness, after the checks of one case.
    private static double ShareHidden(int which)
    {
        (double scattering, double index, double radiusMm) = Cases[which];
        Material body = Data.Make(
            "body", 0.03, 0.27, scattering, index, CoefficientUncertainty.OfScale(Data.Grid, Scale));
        Restoration crown = Data.Crown(WallData.Zone(Data.Good, MaskingReference.Over(Data.Good)), body) with
        {
            WallRange = new ThicknessRange(0.3, 4),
            Uncertainty = WallData.OfInputs,
        };
        SpotMaskingResult result = SpotMasking.Find(crown, crown.Zones[0], Data.Dark, radiusMm);
        Assert.True(result.Minimum.ByColorMm > 0.35);

        // The library is a little too careful, but half its margin would not be enough: many pieces tell that.
        int seed = 10 * which;
        double byColor = result.Minimum.ByColorMm!.Value, reliable = result.Minimum.ReliableMm!.Value;
        double share = ShareHidden(crown, reliable, radiusMm, Pieces, seed);
        Assert.InRange(share, 0.95 - Spread(Pieces), 1);
        double half = ShareHidden(crown, byColor, radiusMm, Fewer, seed);
        Assert.InRange(half, 0.25, 0.8);
        Assert.InRange(
            ShareHidden(crown, (byColor + reliable) / 2, radiusMm, Fewer, seed), Math.Max(half, 0.6), 0.97);
        return share;
    }

    private static double ShareHidden(Restoration crown, double wallMm, double radiusMm, int pieces, int seed)
    {
        SpotBelow below = new(radiusMm, [0, 0.5 * radiusMm, 0.9 * radiusMm, radiusMm + 0.3]);
        Random random = new(seed);
        double Normal() => WallData.Gauss(random);
        InputUncertainty inputs = crown.Uncertainty;
        int hidden = 0;
        for (int piece = 0; piece < pieces; piece++)
        {
            Material Drawn(Material material)
            {
                double factor = 1 + (material.Uncertainty!.RelativeScale * Normal());
                return WallData.With(
                    material, [.. material.Absorption.Values.ToArray().Select(k => k * factor)],
                    [.. material.Scattering.Values.ToArray().Select(s => s * factor)],
                    material.RefractiveIndex.Constant + (inputs.RefractiveIndex * Normal()));
            }

            Layer[] layers =
            [
                new(Drawn(crown.Core.Material), wallMm + (inputs.CoreMm * Normal())),
                new(Drawn(Data.Film), Math.Max(0, 0.05 + (inputs.CementMm * Normal()))),
            ];
            LayerStack stack = new(layers, Data.Good.Shifted(inputs.StumpReflectance * Normal()));
            double anisotropy = 0.9 * random.NextDouble();
            IReadOnlyList<ReflectanceSpectrum> seen = LateralReflectance.AboveSpot(
                stack, Data.Dark.Shifted(inputs.StumpReflectance * Normal()), crown.Viewing.Geometry, below,
                UnknownAnisotropy.SamplerAt(stack, crown.Viewing.Geometry, anisotropy));
            Lab reference = Colorimeter.D65TwoDegree.ToLab(new LayerStack(layers, Data.Good).Reflectance());
            hidden += seen.All(spectrum => crown.Criterion.Difference(
                reference, Colorimeter.D65TwoDegree.ToLab(spectrum)) <= crown.Criterion.Limit) ? 1 : 0;
        }

        return hidden / (double)pieces;
    }
}
