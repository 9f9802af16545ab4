namespace CeramicOptics.Decisions.Masking;

/// <summary>A thickness at which the largest difference passes the limit of the criterion.</summary>
/// <param name="WallMm">Thickness of the wall, mm.</param>
/// <param name="IntoMasking">True when thicker is masked, false when thicker is not masked any more.</param>
public readonly record struct Crossing(double WallMm, bool IntoMasking) : IFormattable
{
    /// <summary>For example "masked from 0.85 mm".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).Text(
        IntoMasking ? "Crossing.IntoMasking" : "Crossing.OutOfMasking", WallMm);
}
