using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ShadeApi;

/// <summary>An invented laboratory: its materials and the questions it can answer. All data is invented.</summary>
internal static class Workshop
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly Layer Cement = new(Body("clear cement", 0.03, 0.9, 1.52), 0.05);

    private static readonly StainOptions Stains = new(
        new StainLayer(Body("stain base", 0.01, 0.1, 1.5), 0.05),
            [Pigment("straw", 430, 30), Pigment("slate", 600, 20)]);

    private static readonly MaskingOptions Quick = new() { Samples = 256 };

    /// <summary>The crown that is asked about.</summary>
    /// <exception cref="MistakeException">A value of the client is impossible.</exception>
    public static Restoration Crown(Question question)
    {
        Target wish = Mistake.In(Mistake.Color, () =>
        {
            // Also found here: a colour that no surface has under the light it was read in.
            Lab color = new(question.TargetL, question.TargetA, question.TargetB);
            _ = Colorimeter.D65TwoDegree.SmoothestReflectance(color, Grid);
            return Target.FromColor(
                "neighbour", color, Colorimeter.D65TwoDegree, MeasurementGeometry.DiffuseSpecularIncluded);
        });
        Substrate stump = Mistake.In(Mistake.Stump, () => Substrate.FromMeasuredReflectance(
            "stump", ReflectanceSpectrum.Uniform(Grid, question.StumpReflectance), 1.54,
            MeasurementGeometry.DiffuseSpecularIncluded));
        Restoration crown = Mistake.In(Mistake.Thickness, () => new Restoration(
            [new Zone("body", stump, question.AvailableMm, wish)], Ceramic(1, question.StructuralMm), Cement,
            ColorCriterion.AcceptabilityThreshold));
        return crown.FindProblems() is [InputProblem problem, ..]
            ? throw new MistakeException(
                problem.Kind == InputProblemKind.TooLittleRoom ? Mistake.Room : Mistake.Thickness, problem)
            : crown;
    }

    public static MatchRanking Rank(
        Restoration crown, IProgress<double>? progress, CancellationToken cancellation) => Match.Find(
            crown, new MatchOptions([.. Enumerable.Range(1, 5).Select(grade =>
                Ceramic(grade, crown.Core.Strength.MinimumMm!.Value))]), progress, cancellation);

    public static StainRecipe FindStain(Restoration crown, CancellationToken cancellation) =>
        Stain.Find(crown, Stains, null, cancellation);

    public static MapAnswer Map(Restoration crown, double[] thicknessesMm, CancellationToken cancellation)
    {
        ThicknessMap map = new([ThicknessResponse.Compile(crown, crown.Zones[0], Quick, null, cancellation)]);
        double[] differences = new double[thicknessesMm.Length];
        Srgb[] colors = new Srgb[thicknessesMm.Length];
        map.Differences(thicknessesMm, differences);
        map.DisplayColors(thicknessesMm, colors);
        return new MapAnswer(
            [.. differences.Select(value => double.IsNaN(value) ? (double?)null : value)],
            [.. colors.Select(color => double.IsNaN(color.R) ? null : color.ToHex())],
            WallSuggestion.Find(
                map, MapMesh.FromEdges(thicknessesMm.Length, []), thicknessesMm, 1, cancellation: cancellation));
    }

    private static Ceramic Ceramic(int grade, double structuralMm) =>
        new("Granary ceramic", grade, Body($"Granary ceramic, grade {grade}", 0.06, 2 * Math.Pow(1.5, grade), 1.53))
        {
            Strength = StrengthLimit.Of(structuralMm),
        };

    private static Material Body(string name, double k, double s, double index) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, k), ScatteringSpectrum.Uniform(Grid, s), index,
        CoefficientUncertainty.OfScale(Grid, 0.05));

    private static Pigment Pigment(string name, double centreNm, double height) => new(
        name, TwoFluxModel.Instance,
        new AbsorptionSpectrum(Grid, [.. Enumerable.Range(0, Grid.Count).Select(
            i => 0.01 + (height * Math.Exp(-Math.Pow((Grid[i] - centreNm) / 70, 2))))]),
        ScatteringSpectrum.Uniform(Grid, 1));
}
