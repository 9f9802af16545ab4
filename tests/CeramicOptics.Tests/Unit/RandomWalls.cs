using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>Random invented restorations of one zone, in both theories, that hide a stump or match a target, with and
/// without a strength limit. The ends of their ranges are no numbers of single precision.</summary>
internal static class RandomWalls
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 50);

    public static Colorimeter[] Lights { get; } = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree];

    /// <summary>The n-th: every fourth by radiative transfer, every third for a target.</summary>
    public static Restoration Of(int number)
    {
        Random random = new(number);
        IOpticalModel model = number % 4 == 1 ? TransportModel.Default : TwoFluxModel.Instance;
        double Between(double min, double max) => min + ((max - min) * random.NextDouble());
        Material Body(string name, double k, double s, double index)
        {
            double blue = Between(0, 1);
            return new(
                name, model,
                new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, 7).Select(i => k * (1 + (blue * Math.Exp(-i))))]),
                new ScatteringSpectrum(Grid, [.. Enumerable.Range(0, 7).Select(i => s * (1.15 - (0.05 * i)))]), index,
                CoefficientUncertainty.OfScale(Grid, Between(0.001, 0.05)));
        }

        Substrate Stump(string name, double from, double to) => Substrate.FromInternalReflectance(
            name, new ReflectanceSpectrum(Grid, [.. Enumerable.Range(0, 7).Select(i => from + ((to - from) * i / 6))]),
            1.54);

        Material core = Body("core", Between(0.02, 0.3), Between(3, 20), Between(1.5, 2.1));
        Layer cement = new(Body("cement", 0.03, 0.9, 1.52), 0.05);
        Substrate stump = Stump("stump", Between(0.03, 0.2), Between(0.1, 0.4));
        ColorReference reference = number % 3 == 0
            ? Target.FromReflectance(
                "wish", new LayerStack([new Layer(core, Between(0.4, 1.9)), cement], stump).Reflectance(),
                MeasurementGeometry.DiffuseSpecularIncluded)
            : number % 3 == 1 ? MaskingReference.SelfBacked
            : MaskingReference.Over(Stump("good", 0.4, 0.6));
        double? strength = number % 5 < 2 ? null : Between(0.3, 1.2);
        return new Restoration(
            [new Zone("body", stump, 0.7, reference)],
            new Ceramic("invented", 1, core)
            {
                Strength = strength is double mm ? StrengthLimit.Of(mm) : StrengthLimit.NotGiven,
            },
            cement,
            number % 4 == 0 ? ColorCriterion.PerceptibilityThreshold : ColorCriterion.AcceptabilityThreshold)
        {
            WallRange = new ThicknessRange(0.3 + Between(0, 0.1), 2.2 + Between(0, 0.1)),
            Viewing = new ViewingConditions { Colorimeters = Lights },
            Uncertainty = new InputUncertainty { TargetColor = 0.1, StumpReflectance = 0.003 },
        };
    }

    /// <summary>The largest difference at a wall, by plain evaluation of its stack.</summary>
    public static double Difference(Restoration crown, double wallMm) =>
        Difference(crown, new Layer(crown.Core.Material, wallMm));

    /// <summary>The same of layers of its own, the core last.</summary>
    public static double Difference(Restoration crown, params Layer[] wall)
    {
        Zone zone = crown.Zones[0];
        LayerStack stack = new([.. wall, crown.Cement!], zone.Stump);
        ReflectanceSpectrum own = stack.Reflectance(), other = zone.Reference is Target target ? target.Spectrum!
            : ((MaskingReference)zone.Reference).Substrate is { } good ? stack.WithSubstrate(good).Reflectance()
            : stack.InfiniteReflectance(wall.Length - 1);
        return Lights.Max(light => crown.Criterion.Difference(light.ToLab(other), light.ToLab(own)));
    }
}
