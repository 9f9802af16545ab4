using CeramicOptics.Layers;

namespace CeramicOptics.Restorations;

/// <summary>
/// The smallest thickness that strength allows, as decided outside this library, and which layers it counts.
/// </summary>
/// <remarks>
/// The library never derives one: the strength class of the material (ISO 6872), its instructions for use and licensed
/// practice do. Without one no thickness is recommended. Immutable.
/// </remarks>
public sealed record StrengthLimit : IFormattable
{
    private StrengthLimit(double? minimumMm, StrengthScope scope) => (MinimumMm, Scope) = (minimumMm, scope);

    /// <summary>No limit is given: results then recommend no thickness, and a caution says so.</summary>
    public static StrengthLimit NotGiven { get; } = new(null, StrengthScope.Core);

    /// <summary>Smallest thickness of the layers that count, mm; null when not given.</summary>
    public double? MinimumMm { get; }

    /// <summary>Which layers count.</summary>
    internal StrengthScope Scope { get; }

    /// <summary>True when there is a limit.</summary>
    internal bool IsGiven => MinimumMm is not null;

    /// <summary>A limit.</summary>
    /// <param name="minimumMm">Smallest thickness, 0.1 to 100 mm; a smaller value is taken as a misplaced decimal
    /// point.</param>
    /// <param name="scope">
    /// Which layers count; the core alone by default, which is the stricter reading.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public static StrengthLimit Of(double minimumMm, StrengthScope scope = StrengthScope.Core) =>
        new(Guard.InRange(minimumMm, 0.1, Layer.MaximumThicknessMm, "mm", "strength limit"), Guard.Defined(scope));

    /// <summary>For example "at least 0.8 mm of core".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => IsGiven
        ? Language.Of(provider).Text("StrengthLimit.Given", MinimumMm, Scope)
        : Language.Of(provider).Text("StrengthLimit.NotGiven");
}
