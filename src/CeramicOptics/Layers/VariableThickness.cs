namespace CeramicOptics.Layers;

/// <summary>
/// One thickness that varies in a compiled stack: that of one layer, or of several layers that follow it together.
/// </summary>
/// <remarks>Immutable and safe to share.</remarks>
public sealed record VariableThickness
{
    /// <summary>The thickness of one layer.</summary>
    /// <param name="layer">Position of the layer, 0 at the surface.</param>
    /// <param name="range">Thicknesses to cover.</param>
    public VariableThickness(int layer, ThicknessRange range)
        : this([new LayerPart(layer)], range)
    {
    }

    /// <summary>A thickness that several layers follow.</summary>
    /// <param name="parts">How each layer follows it; no layer twice.</param>
    /// <param name="range">Values of the thickness to cover.</param>
    /// <exception cref="ArgumentException">No part, or a layer that stands twice.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A layer would be thinner than 0 or thicker than 100 mm somewhere in the range, or its slope is outside -1 to 1.
    /// </exception>
    internal VariableThickness(IEnumerable<LayerPart> parts, ThicknessRange range)
    {
        Parts = Guard.Copy(parts, minimumCount: 1);
        Range = range;
        if (Parts.Select(part => part.Layer).Distinct().Count() < Parts.Count)
        {
            throw new ArgumentException(
                "A layer can follow a thickness in one way only but stands twice among the parts.", nameof(parts));
        }

        foreach (LayerPart part in Parts)
        {
            Guard.InRange(part.Slope, -1, 1, "", "slope of a part");
            foreach (double end in (double[])[range.MinMm, range.MaxMm])
            {
                double mm = part.OffsetMm + (part.Slope * end);
                Guard.InRange(
                    mm > -1e-12 ? Math.Max(0, mm) : mm, 0, Layer.MaximumThicknessMm, "mm",
                    $"thickness of layer {Guard.Text(part.Layer)}");
            }
        }
    }

    /// <summary>How each layer follows the thickness.</summary>
    internal IReadOnlyList<LayerPart> Parts { get; }

    /// <summary>Values of the thickness that are covered.</summary>
    internal ThicknessRange Range { get; }

    /// <summary>Puts the thicknesses of the layers that follow into those of a whole stack.</summary>
    internal void Set(double thicknessMm, Span<double> layersMm)
    {
        for (int i = 0; i < Parts.Count; i++)
        {
            LayerPart part = Parts[i];
            layersMm[part.Layer] = Math.Max(0, part.OffsetMm + (part.Slope * thicknessMm));
        }
    }
}
