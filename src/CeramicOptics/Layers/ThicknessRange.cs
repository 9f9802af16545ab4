namespace CeramicOptics.Layers;

/// <summary>Thicknesses from a smallest to a largest, mm.</summary>
/// <remarks>Immutable. The default is the range from 0 to 0 mm.</remarks>
public readonly record struct ThicknessRange : IFormattable
{
    /// <summary>A range.</summary>
    /// <param name="minMm">Smallest thickness, 0 to 100 mm.</param>
    /// <param name="maxMm">Largest thickness, from <paramref name="minMm"/> to 100 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">An end is outside its bounds or NaN.</exception>
    public ThicknessRange(double minMm, double maxMm)
    {
        MinMm = Guard.InRange(minMm, 0, Layer.MaximumThicknessMm, "mm");
        MaxMm = Guard.InRange(maxMm, minMm, Layer.MaximumThicknessMm, "mm");
    }

    /// <summary>Smallest thickness, mm.</summary>
    public double MinMm { get; }

    /// <summary>Largest thickness, mm.</summary>
    public double MaxMm { get; }

    /// <summary>True for a thickness from one end to the other, ends included; false for NaN.</summary>
    /// <param name="thicknessMm">Thickness, mm.</param>
    internal bool Contains(double thicknessMm) => thicknessMm >= MinMm && thicknessMm <= MaxMm;

    /// <summary>For example "0.2 to 3 mm".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("ThicknessRange", MinMm, MaxMm);

    /// <summary>The thickness at a share of the way from the smallest, 0, to the largest, 1.</summary>
    internal double At(double share) => share >= 1 ? MaxMm : Math.Min(MaxMm, MinMm + ((MaxMm - MinMm) * share));

    /// <summary>Thicknesses from end to end, evenly spaced by at most a step.</summary>
    internal double[] Steps(double stepMm)
    {
        (double min, double max) = (MinMm, MaxMm);
        int steps = (int)Math.Ceiling(((max - min) / stepMm) - 1e-9);
        return [.. Enumerable.Range(0, steps + 1).Select(i => i == steps ? max : min + (i * (max - min) / steps))];
    }
}
