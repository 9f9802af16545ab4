namespace CeramicOptics.Colorimetry;

/// <summary>How the eye's adaptation from one white to another is modelled.</summary>
public enum AdaptationMethod
{
    /// <summary>Linear Bradford transform (ICC.1:2010, annex E).</summary>
    Bradford,

    /// <summary>CAT02 of CIECAM02 (CIE 159:2004).</summary>
    Cat02,

    /// <summary>CAT16 of CAM16 (Li et al. 2017, Color Res. Appl. 42:703-718; CIE 248:2022).</summary>
    Cat16,
}
