namespace CeramicOptics.Colorimetry.Differences;

/// <summary>CIEDE2000 taken apart: what differs, sample minus reference, and by how much it weighs.</summary>
/// <param name="Lightness">Lightness difference dL'; positive: the sample is lighter.</param>
/// <param name="Chroma">Chroma difference dC'; positive: the sample is more saturated.</param>
/// <param name="Hue">
/// Hue difference dH'; positive: counter-clockwise in the a*b* plane (from red towards yellow).
/// </param>
/// <param name="WeightedLightness">dL' / (kL SL).</param>
/// <param name="WeightedChroma">dC' / (kC SC).</param>
/// <param name="WeightedHue">dH' / (kH SH).</param>
/// <param name="Rotation">Rotation factor RT of the blue region, -2 to 0 (or rounding above it).</param>
/// <remarks>ISO/CIE 11664-6.</remarks>
internal readonly record struct Ciede2000Terms(
    double Lightness, double Chroma, double Hue, double WeightedLightness, double WeightedChroma, double WeightedHue,
    double Rotation) : IFormattable
{
    /// <summary>The colour difference: root of the squared weighted terms and the rotation term; 0 or more.</summary>
    public double Total => Math.Sqrt(Math.Max(
        0,
        (WeightedLightness * WeightedLightness) + (WeightedChroma * WeightedChroma) + (WeightedHue * WeightedHue)
            + (Rotation * WeightedChroma * WeightedHue)));

    /// <summary>For example "dL' -3.0, dC' +0.4, dH' +0.1".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("Ciede2000Terms", Lightness, Chroma, Hue);
}
