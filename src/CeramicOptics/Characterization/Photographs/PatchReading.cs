namespace CeramicOptics.Characterization.Photographs;

/// <summary>
/// What a camera gives for one patch of a picture: the mean of its pixels and, where known, their spread.
/// </summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record PatchReading
{
    /// <summary>Most pixels that a patch may have.</summary>
    internal const int MaximumPixels = 1_000_000_000;

    /// <summary>A patch.</summary>
    /// <param name="name">Name to show in results.</param>
    /// <param name="mean">Mean of each channel over the patch, 0 to 1 of full scale.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A mean outside its range or NaN; names patch and channel.
    /// </exception>
    public PatchReading(string name, CameraRgb mean)
    {
        Name = Guard.NotBlank(name);
        Mean = InRange(mean, "mean");
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Mean of each channel, 0 to 1 of full scale.</summary>
    internal CameraRgb Mean { get; }

    /// <summary>Standard deviation of the pixels of each channel, 0 to 1 of full scale; null where not known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range or NaN; names patch and channel.</exception>
    public CameraRgb? PixelDeviation
    {
        get;
        init => field = value is null ? null : InRange(value.Value, "pixel deviation");
    }

    /// <summary>
    /// Number of pixels that vary independently, 1 to 1e9; null where not known: then the deviation of one pixel stands
    /// for that of the mean.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside its range.</exception>
    /// <remarks>
    /// A sensor with a colour mosaic measures each channel at a part of the pixels only, and compression makes
    /// neighbours alike: take a quarter of the pixels or fewer (common practice, no source).
    /// </remarks>
    public int? IndependentPixels
    {
        get;
        init => field = value is null
            ? null : Guard.InRange(value.Value, 1, MaximumPixels, $"independent pixels of '{Name}'");
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>
    /// Standard uncertainty of the mean of a channel from the spread of the pixels; 0 where that is not known.
    /// </summary>
    internal double MeanUncertainty(CameraChannel channel) =>
        (PixelDeviation?[channel] ?? 0) / Math.Sqrt(IndependentPixels ?? 1);

    /// <summary>
    /// The first channel with pixels at or beyond an end of the usable range: its mean, or two deviations from it.
    /// </summary>
    internal CameraChannel? ClippedChannel(double from, double to)
    {
        foreach (CameraChannel channel in (CameraChannel[])[CameraChannel.Red, CameraChannel.Green, CameraChannel.Blue])
        {
            double spread = 2 * (PixelDeviation?[channel] ?? 0);
            if (Mean[channel] - spread <= from || Mean[channel] + spread >= to)
            {
                return channel;
            }
        }

        return null;
    }

    private CameraRgb InRange(CameraRgb values, string what)
    {
        Guard.InRange(values.Red, 0, 1, "of full scale", $"red {what} of '{Name}'");
        Guard.InRange(values.Green, 0, 1, "of full scale", $"green {what} of '{Name}'");
        Guard.InRange(values.Blue, 0, 1, "of full scale", $"blue {what} of '{Name}'");
        return values;
    }
}
