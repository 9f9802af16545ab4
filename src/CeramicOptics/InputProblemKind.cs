namespace CeramicOptics;

/// <summary>What is wrong with an input.</summary>
public enum InputProblemKind
{
    /// <summary>A number is outside the range that it must have, or is not a number.</summary>
    OutOfRange,

    /// <summary>No body that reflects between 0 and 1 has this colour.</summary>
    ImpossibleColor,

    /// <summary>A zone has less room than strength requires.</summary>
    TooLittleRoom,
}
