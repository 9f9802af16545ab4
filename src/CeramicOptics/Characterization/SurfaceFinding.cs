namespace CeramicOptics.Characterization;

/// <summary>A remark about fitted surface terms.</summary>
/// <remarks>Created by the library only; equal by value.</remarks>
public sealed record SurfaceFinding : IFormattable
{
    internal SurfaceFinding(SurfaceFindingKind kind, params double[] values) =>
        (Kind, Values) = (kind, Guard.Copy(values));

    /// <summary>What was found.</summary>
    public SurfaceFindingKind Kind { get; }

    /// <summary>The values concerned, in the order that each <see cref="SurfaceFindingKind"/> states.</summary>
    public IReadOnlyList<double> Values { get; }

    /// <summary>True when the terms could be given all the same.</summary>
    public bool IsDetermined => Kind is SurfaceFindingKind.PoorFit or SurfaceFindingKind.AtLimit;

    /// <summary>For example "Chi-square is 412 for 60 degrees of freedom."</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text($"SurfaceFinding.{Kind}", [.. Values.Cast<object>()]);
}
