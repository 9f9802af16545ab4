using CeramicOptics.Characterization.Photographs;

namespace CeramicOptics.Tests.Design;

/// <summary>Bad input about photographs, for the table of messages.</summary>
public class PhotographBadInput
{
    internal static Dictionary<string, Action> Cases { get; } = new()
    {
        ["camera value of 8 bits"] = () => Patch("stump", 187),
        ["camera value NaN"] = () => Patch("stump", double.NaN),
        ["camera value below black"] = () => Patch("stump", -0.01),
        ["pixel deviation of 8 bits"] = () => _ = new PatchReading("stump",
        default) { PixelDeviation = new CameraRgb(3, 3, 3) },
        ["patch of no pixels"] = () => _ = new PatchReading("stump", default) { IndependentPixels = 0 },
        ["chart colour NaN"] = () => _ = new ChartPatch(Patch("patch 1", 0.5), new Lab(50, double.NaN, 0)),
        ["chart colour above white"] = () => _ = new ChartPatch(Patch("patch 1", 0.5), new Lab(101, 0, 0)),
        ["chart of too few patches"] = () => Take(Chart(5)),
        ["photograph without a tooth"] = () => _ = new Photograph(TransferCurve.Linear, Chart(24),
        Colorimeter.D65TwoDegree, []),
        ["two patches of one name"] = () => Take([.. Chart(24), Chart(1)[0]]),
        ["chart of greys"] = () => Take(
            [.. Enumerable.Range(1,
            12).Select(i => new ChartPatch(Patch($"grey {i}", 0.05 * i), new Lab(8 * i, 0, 0)))]),
        ["chart overexposed"] = () => Take(
            [.. Chart(24).Select(
                (patch, i) => i < 19 ? new ChartPatch(Patch(patch.Reading.Name, 1), patch.Known) : patch)]),
        ["chart too small for the terms"] = () => Take(Chart(20),
        new PhotographOptions { Method = CorrectionMethod.Polynomial20 }),
        ["regularization above one"] = () => _ = new PhotographOptions { Regularization = 2 },
        ["clipping above full scale"] = () => _ = new PhotographOptions { ClippedAbove = 255 },
        ["unknown correction"] = () => _ = new PhotographOptions { Method = (CorrectionMethod)99 },
        ["curve with an exponent below one"] = () => TransferCurve.Power(0.45),
        ["colour of a clipped patch"] = () => _ = Take(Chart(24), tooth: Patch("stump", 0.99)).Colors[0].Color,
        ["patch of an unknown name"] = () => _ = Take(Chart(24))["neighbour"],
    };

    private static PatchReading Patch(string name, double value) => new(name, new CameraRgb(value, value, value));

    private static ChartPatch[] Chart(int count) =>
    [
        .. Enumerable.Range(0, count).Select(i => new ChartPatch(
            new PatchReading($"patch {i}",
            new CameraRgb(0.1 + (0.03 * (i * 7 % 23)), 0.1 + (0.03 * (i * 11 % 23)), 0.1 + (0.03 * (i * 13 % 23)))),
            new Lab(20 + (3 * i % 70), (i * 17 % 60) - 30, (i * 29 % 60) - 30))),
    ];

    private static PhotographResult Take(
        ChartPatch[] chart, PhotographOptions? options = null, PatchReading? tooth = null) =>
        PhotographCharacterization.Find(
            new Photograph(TransferCurve.Linear, chart, Colorimeter.D65TwoDegree, [tooth ?? Patch("stump", 0.5)]),
            options);
}
