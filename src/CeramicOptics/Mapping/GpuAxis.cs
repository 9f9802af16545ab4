using System.Globalization;
using CeramicOptics.Layers;

namespace CeramicOptics.Mapping;

/// <summary>A thickness along one side of a table: the first and the last texel are the ends of its range.</summary>
/// <param name="Name">Name of the layer, a word that is also one of GLSL's identifiers.</param>
/// <param name="Range">Thicknesses covered.</param>
/// <param name="Size">Number of texels.</param>
/// <param name="Parts">Equal parts of the range between which the response itself is a straight line.</param>
internal sealed record GpuAxis(string Name, ThicknessRange Range, int Size, int Parts)
{
    public double StepMm => (Range.MaxMm - Range.MinMm) / (Size - 1);

    /// <summary>Where the straight lines of the response or of the texels end, in texels.</summary>
    public double[] Breaks() =>
    [
        .. Enumerable.Range(0, Parts + 1).Select(i => i * (Size - 1.0) / Parts)
            .Concat(Enumerable.Range(0, Size).Select(i => (double)i)).Distinct(),
    ];

    /// <summary>Places evenly spaced in texels.</summary>
    public double[] Places(int perTexel) =>
        [.. Enumerable.Range(0, ((Size - 1) * perTexel) + 1).Select(i => i / (double)perTexel)];

    public double Mm(double texel) => Range.At(texel / (Size - 1));

    /// <summary>A number of GLSL: single precision, with a point or an exponent.</summary>
    public static string Literal(double value)
    {
        string text = ((float)value).ToString("G9", CultureInfo.InvariantCulture);
        return text.Contains('.') || text.Contains('E') ? text : text + ".0";
    }
}
