namespace CeramicOptics.Selection;

/// <summary>What a user of a result must keep in mind.</summary>
public enum CautionKind
{
    /// <summary>The thickness is about colour alone; strength is not assessed.</summary>
    StrengthNotAssessed,

    /// <summary>The structural minimum passed by the caller is above the optical one and governs.</summary>
    StructuralMinimumGoverns,

    /// <summary>More thickness may mean that more tooth is removed, which this library does not decide.</summary>
    ToothReduction,

    /// <summary>The layer is so thin or clear that two-flux theory is inaccurate.</summary>
    TwoFluxInaccurate,

    /// <summary>A colour known only as L*a*b* was turned into an estimated spectrum.</summary>
    EstimatedSpectrum,

    /// <summary>Spectra end before 380 or 780 nm and their end values were held.</summary>
    ShortSpectrum,

    /// <summary>An uncertainty is not known and not included.</summary>
    UncertaintyIncomplete,
}
