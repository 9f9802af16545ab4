namespace CeramicOptics.Characterization.Photographs;

/// <summary>How colours are found from a photograph.</summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record PhotographOptions
{
    /// <summary>The method to use; null for the simplest that the chart's leave-one-out errors support.</summary>
    public CorrectionMethod? Method
    {
        get;
        init => field = value is null ? null : Guard.Defined(value.Value, nameof(Method));
    }

    /// <summary>Regularization, 0 to 1; 0 (none) by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    /// <remarks>
    /// Adds this number times the sum of the squared coefficients to the sum of squares, for terms scaled so that the
    /// squares of each add up to 1 over the chart.
    /// </remarks>
    public double Regularization { get; init => field = Guard.InRange(value, 0, 1, "", nameof(Regularization)); }

    /// <summary>
    /// Values of a channel at or below this one are taken as clipped, 0 to 0.5 of full scale; 0 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ClippedBelow
    {
        get;
        init => field = Guard.InRange(value, 0, 0.5, "of full scale", nameof(ClippedBelow));
    }

    /// <summary>
    /// Values of a channel at or above this one are taken as clipped, 0.5 to 1 of full scale; 0.98 by default (common
    /// practice, no source).
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ClippedAbove
    {
        get;
        init => field = Guard.InRange(value, 0.5, 1, "of full scale", nameof(ClippedAbove));
    }
    = 0.98;
}
