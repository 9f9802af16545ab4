namespace CeramicOptics.Characterization.Photographs;

/// <summary>Standard uncertainties of a colour.</summary>
/// <param name="L">Of L*, 0 or more.</param>
/// <param name="A">Of a*, 0 or more.</param>
/// <param name="B">Of b*, 0 or more.</param>
public readonly record struct LabUncertainty(double L, double A, double B)
{
    /// <summary>The largest of the three, for where one number must stand for all.</summary>
    public double Largest => Math.Max(L, Math.Max(A, B));
}
