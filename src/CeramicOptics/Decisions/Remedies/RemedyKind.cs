namespace CeramicOptics.Decisions.Remedies;

/// <summary>What could be changed to bring a candidate closer to its target.</summary>
public enum RemedyKind
{
    /// <summary>A thicker or thinner wall.</summary>
    Thickness,

    /// <summary>Another grade of the same family.</summary>
    Grade,

    /// <summary>Another cement.</summary>
    Cement,

    /// <summary>An opaque liner under the ceramic.</summary>
    BlockingLiner,

    /// <summary>A build-up that covers the stump.</summary>
    StumpBuildUp,
}
