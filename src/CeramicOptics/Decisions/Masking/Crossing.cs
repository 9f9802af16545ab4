namespace CeramicOptics.Decisions.Masking;

/// <summary>A thickness at which the largest difference passes the limit of the criterion.</summary>
/// <param name="WallMm">Thickness of the wall, mm.</param>
/// <param name="IntoMasking">True when thicker is masked, false when thicker is not masked any more.</param>
public readonly record struct Crossing(double WallMm, bool IntoMasking) : IFormattable
{
    /// <summary>For example "masked from 0.85 mm".</summary>
    public override string ToString() => ToString(null);

    /// <summary>The same in the language of a culture.</summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public string ToString(IFormatProvider? provider) => Language.Of(provider).Text(
        IntoMasking ? "Crossing.IntoMasking" : "Crossing.OutOfMasking", WallMm);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => ToString(provider);
}
