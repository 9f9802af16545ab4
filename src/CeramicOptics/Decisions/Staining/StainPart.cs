namespace CeramicOptics.Decisions.Staining;

/// <summary>One pigment of a mixture.</summary>
public sealed record StainPart : IFormattable
{
    /// <summary>A pigment with its load.</summary>
    /// <param name="pigment">The pigment.</param>
    /// <param name="load">How much of it, in the caller's unit of load, as applied; 0 to 1e6.</param>
    /// <exception cref="ArgumentOutOfRangeException">Load outside its range or NaN.</exception>
    public StainPart(Pigment pigment, double load)
    {
        Pigment = Guard.NotNull(pigment);
        Load = Guard.InRange(load, 0, 1e6, "", $"load of '{pigment}'");
    }

    /// <summary>The pigment.</summary>
    public Pigment Pigment { get; }

    /// <summary>How much of it, in the caller's unit of load, as applied.</summary>
    public double Load { get; }

    /// <summary>For example "ochre 0.42".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("StainPart", Pigment.Name, Load);
}
