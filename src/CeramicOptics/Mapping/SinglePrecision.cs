using CeramicOptics.Layers;

namespace CeramicOptics.Mapping;

/// <summary>What rounding to single precision may do to a thickness: a thickness that is one of an answer, rounded so,
/// counts as that thickness.</summary>
internal static class SinglePrecision
{
    // A little more than half a unit in the last place of a float.
    private const double Rounding = 6e-8;

    /// <summary>A thickness from which on a limit counts as reached, mm.</summary>
    public static double Below(double mm) => mm * (1 - Rounding);

    /// <summary>A thickness up to which a limit counts as not passed, mm.</summary>
    public static double Above(double mm) => mm * (1 + Rounding);

    /// <summary>The end of a range where a thickness is that end rounded, else the thickness.</summary>
    public static double Inside(ThicknessRange range, double mm) =>
        mm < range.MinMm ? (mm >= Below(range.MinMm) ? range.MinMm : mm)
            : mm > range.MaxMm && mm <= Above(range.MaxMm) ? range.MaxMm : mm;
}
