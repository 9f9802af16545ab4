namespace CeramicOptics.Characterization.Photographs;

/// <summary>A colour channel of a camera.</summary>
public enum CameraChannel
{
    /// <summary>Red.</summary>
    Red,

    /// <summary>Green.</summary>
    Green,

    /// <summary>Blue.</summary>
    Blue,
}
