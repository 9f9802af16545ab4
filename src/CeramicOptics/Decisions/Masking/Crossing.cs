namespace CeramicOptics.Decisions.Masking;

/// <summary>A thickness at which the largest difference crosses the limit of the criterion.</summary>
/// <param name="WallMm">Thickness of the wall, mm.</param>
/// <param name="IntoMasking">True when a thicker wall is masked, false when it is no longer masked.</param>
public readonly record struct Crossing(double WallMm, bool IntoMasking) : IFormattable
{
    /// <summary>For example "masked from 0.85 mm".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => Language.Of(provider).Text(
        IntoMasking ? "Crossing.IntoMasking" : "Crossing.OutOfMasking", WallMm);
}
