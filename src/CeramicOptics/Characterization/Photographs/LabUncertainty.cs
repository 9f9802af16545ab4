namespace CeramicOptics.Characterization.Photographs;

/// <summary>Standard uncertainties of a colour.</summary>
/// <param name="L">Of L*, 0 or more.</param>
/// <param name="A">Of a*, 0 or more.</param>
/// <param name="B">Of b*, 0 or more.</param>
public readonly record struct LabUncertainty(double L, double A, double B) : IFormattable
{
    /// <summary>The largest of the three, for where one number must stand for all.</summary>
    public double Largest => Math.Max(L, Math.Max(A, B));

    /// <summary>For example "± 0.9, ± 0.6, ± 1.1", of L*, a* and b*.</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider) =>
        Language.Of(provider).Text("LabUncertainty", L, A, B);
}
