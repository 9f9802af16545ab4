using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Uncertainty;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// Objects shared between threads answer as they do alone, on their first use too, when what is kept inside is made.
/// </summary>
public class SharingTests
{
    private const int Threads = 8, Rounds = 4;

    public static TheoryData<string> Questions => [.. Asked.Keys];

    /// <summary>Each makes fresh objects and returns a question to them.</summary>
    private static Dictionary<string, Func<Func<int, double[]>>> Asked { get; } = new()
    {
        ["compiled stack"] = () =>
        {
            StackResponse response = Bonded(Zirconia(2), 1, BrownTooth).Compile(
                MeasurementGeometry.DiffuseSpecularIncluded, [new VariableThickness(0, new ThicknessRange(0.2, 2))]);
            return i =>
            {
                double[] values = new double[response.Grid.Count];
                response.Reflectance([0.3 + (0.1 * i)], BrownTooth, values);
                return [.. values, response.InfiniteAtNodes(0)[i]];
            };
        },
        ["masking against a colour"] = () =>
        {
            Target target = Target.FromColor(
                "target", new Lab(75, 1, 12), Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
            Restoration crown =
                Crown(target) with
                {
                    Viewing = new ViewingConditions
                    {
                        Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree],
                    },
                };
            return i =>
                [MaskingThickness.Find(
                    crown with { WallRange = new ThicknessRange(0.3, 1 + (0.1 * i)) }).Zones[0].Best.Difference];
        },
        ["stack by radiative transfer"] = () =>
        {
            LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
            return i => stack.WithThickness(0, 0.4 + (0.1 * i)).Reflectance().Values.ToArray();
        },
        ["uncertainty"] = () =>
        {
            Restoration crown = Crown(MaskingReference.SelfBacked);
            return i =>
            {
                ZonePrediction uncertainty = PredictionUncertainty.Find(
                    crown, new SamplingOptions { Samples = 512, Seed = (ulong)i + 1 }).Zones[0];
                return [uncertainty.MeanDifference, uncertainty.StandardUncertainty, uncertainty.Meets.Value];
            };
        },
        ["weighting of a new grid"] = () =>
        {
            ReflectanceSpectrum spectrum = ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 10), 0.4);
            Colorimeter colorimeter = new(Observer.Cie1964TenDegree, Illuminant.Named("F7"));
            return i => [colorimeter.ToLab(spectrum).L, i];
        },
        ["map of veneer and core"] = () =>
        {
            Restoration crown = Crown(MaskingReference.SelfBacked) with { Veneer = Veneer.OfThickness(
                GlassCeramic(1).Material, 0.3) };
            TwoLayerResponse response = TwoLayerResponse.Compile(
                crown, crown.Zones[0], new ThicknessRange(0.2, 0.5), new ThicknessRange(0.4, 0.7));
            return i => [response.DifferenceAt(0.5, 0.4 + (0.1 * i)), response.ColorAt(0.2 + (0.05 * i), 0.5).L];
        },
    };

    private static Restoration Crown(ColorReference reference) =>
        new([new Zone("body", BrownTooth, 0.9, reference)], Zirconia(2), Cement, ColorCriterion.AcceptabilityThreshold);

    [Theory]
    [MemberData(nameof(Questions))]
    public void Shared_objects_answer_as_they_do_alone(string question)
    {
        Func<int, double[]> alone = Asked[question](), shared = Asked[question]();
        double[][] expected = [.. Enumerable.Range(0, Rounds).Select(alone)];
        double[][][] actual = new double[Threads][][];
        using Barrier start = new(Threads);
        Thread[] threads = [.. Enumerable.Range(0, Threads).Select(t => new Thread(() =>
        {
            start.SignalAndWait();
            actual[t] = [.. Enumerable.Range(0,
                Rounds).Select(i => (i + t) % Rounds).Select(i => (i,
                shared(i))).OrderBy(pair => pair.i).Select(pair => pair.Item2)];
        }))];
        Array.ForEach(threads, thread => thread.Start());
        Array.ForEach(threads, thread => thread.Join());
        Assert.All(actual, answers => Assert.Equal(expected, answers));
    }
}
