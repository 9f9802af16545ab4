namespace CeramicOptics.Characterization;

/// <summary>What readings tell about the film that is said to have been between disc and backing.</summary>
public enum CouplingVerdict
{
    /// <summary>The readings fit both films equally well; only the record tells which it was.</summary>
    Open,

    /// <summary>The readings fit the film stated and not the other.</summary>
    Supported,

    /// <summary>The readings do not fit the film stated and fit the other at least four times better.</summary>
    Doubtful,
}
