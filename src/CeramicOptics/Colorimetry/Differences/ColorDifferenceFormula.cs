namespace CeramicOptics.Colorimetry.Differences;

/// <summary>A formula for the size of a colour difference.</summary>
public enum ColorDifferenceFormula
{
    /// <summary>CIE 1976 L*a*b* difference (ISO/CIE 11664-4).</summary>
    Cie76,

    /// <summary>CIEDE2000 with all parametric factors 1 (ISO/CIE 11664-6).</summary>
    Ciede2000,
}
