namespace CeramicOptics.Decisions.Delivered;

/// <summary>
/// What is expected of deviations before any piece is read: the prior that a few pieces change little.
/// </summary>
/// <remarks>
/// The rest of the prior comes with the cases: the uncertainty of K and S from the discs, and the uncertainties of
/// thickness, cement film and stump of the restorations. The defaults are orders of magnitude (common practice, no
/// source). Immutable, equal by value.
/// </remarks>
public sealed record CorrectionOptions
{
    /// <summary>
    /// Relative standard deviation of K, and of S, between batches of a ceramic, 0 to 1; 0.05 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double BatchScale { get; init => field = Guard.InRange(value, 0, 1, "", nameof(BatchScale)); } = 0.05;

    /// <summary>
    /// Relative standard uncertainty of K, and of S, of a material that states none, 0 to 1; 0.05 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double UnstatedScale { get; init => field = Guard.InRange(value, 0, 1, "", nameof(UnstatedScale)); } = 0.05;

    /// <summary>
    /// Standard deviation of the colour that pieces of one furnace have beyond everything else, in each of L*, a*, b*,
    /// 0 to 10; 0.5 by default. It absorbs what scales, thickness, film and stump do not explain.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double FurnaceColor { get; init => field = Guard.InRange(value, 0, 10, "", nameof(FurnaceColor)); } = 0.5;

    /// <summary>
    /// Standard deviation of the reading of a piece, in each of L*, a*, b*, 0.01 to 10; 0.3 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double ReadingColor { get; init => field = Guard.InRange(value, 0.01, 10, "", nameof(ReadingColor)); } = 0.3;

    /// <summary>
    /// Share of the variances of thickness, cement film and stump that all pieces have in common, 0 to 1; the rest
    /// differs from piece to piece and cannot be learned. 0.5 by default.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN.</exception>
    public double CommonShare { get; init => field = Guard.InRange(value, 0, 1, "", nameof(CommonShare)); } = 0.5;
}
