using CeramicOptics.Layers.Transport;
using CeramicOptics.Mapping;
using CeramicOptics.Selection;
using static CeramicOptics.Tests.DemoData;

namespace CeramicOptics.Tests.Unit;

/// <summary>Objects shared between threads answer as they do alone, on their first use too, when what is kept inside is made.</summary>
public class SharingTests
{
    private const int Threads = 8, Rounds = 12;

    public static TheoryData<string> Questions => [.. Asked.Keys];

    /// <summary>Each makes fresh objects and returns a question to them.</summary>
    private static Dictionary<string, Func<Func<int, double[]>>> Asked { get; } = new()
    {
        ["sweep"] = () =>
        {
            ThicknessSweep sweep = Bonded(Zirconia(2), 1, BrownTooth).Sweep(0);
            return i =>
            {
                double[] values = new double[sweep.Grid.Count];
                sweep.Reflectance(0.3 + (0.1 * i), values);
                return values;
            };
        },
        ["masking against a colour"] = () =>
        {
            LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
            MaskingReference target = MaskingReference.Target("target", new Lab(75, 1, 12), Colorimeter.D65TwoDegree);
            ViewingConditions conditions = new() { Colorimeters = [Colorimeter.D65TwoDegree, Colorimeter.ATwoDegree], ChecksModel = false };
            return i => [MaskingThickness.Find(stack, 0, (0.3, 1 + (0.1 * i)), target, ColorCriterion.AcceptableMatch, conditions).Best.Difference];
        },
        ["exact transfer"] = () =>
        {
            TransportModel model = new(12);
            LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
            return i => model.Reflectance(stack.WithThickness(0, 0.4 + (0.1 * i)), MeasurementGeometry.DiffuseSpecularIncluded).Values.ToArray();
        },
        ["uncertainty"] = () =>
        {
            LayerStack stack = Bonded(Zirconia(2), 1, BrownTooth);
            InputUncertainty inputs = new([0.05, 0.02]);
            return i =>
            {
                UncertaintyResult uncertainty = PredictionUncertainty.Sample(stack, 0, MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch, inputs, samples: 512, seed: (ulong)i + 1);
                return [uncertainty.MeanDifference, uncertainty.StandardUncertainty, uncertainty.Meets.Value];
            };
        },
        ["weighting of a new grid"] = () =>
        {
            ReflectanceSpectrum spectrum = ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 10), 0.4);
            Colorimeter colorimeter = new(Observer.Cie1964TenDegree, Illuminant.Named("F7"));
            return i => [colorimeter.ToLab(spectrum).L, i];
        },
        ["map of two layers"] = () =>
        {
            LayerStack stack = new([new Layer(GlassCeramic(1).Material, 0.5), new Layer(Zirconia(2).Material, 0.6), Cement], BrownTooth);
            TwoLayerResponse response = TwoLayerResponse.Compile(stack, 0, (0.2, 1), 1, (0.3, 1.6), MaskingReference.SelfBacked, ColorCriterion.AcceptableMatch);
            return i => [response.LowerRequirementAt(0.2 + (0.05 * i)).OpticalMinimumMm ?? -1, response.DifferenceAt(0.5, 0.4 + (0.1 * i))];
        },
    };

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
            actual[t] = [.. Enumerable.Range(0, Rounds).Select(i => (i + t) % Rounds).Select(i => (i, shared(i))).OrderBy(pair => pair.i).Select(pair => pair.Item2)];
        }))];
        Array.ForEach(threads, thread => thread.Start());
        Array.ForEach(threads, thread => thread.Join());
        Assert.All(actual, answers => Assert.Equal(expected, answers));
    }
}
