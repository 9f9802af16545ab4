using CeramicOptics.Colorimetry;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>A patch of the reference chart: what the camera gives for it, and its known colour.</summary>
/// <remarks>Immutable, equal by value.</remarks>
public sealed record ChartPatch
{
    /// <summary>A patch of the chart.</summary>
    /// <param name="reading">What the camera gives.</param>
    /// <param name="known">
    /// Its colour as measured or as stated with the chart; L* 0 to 100, a* and b* -200 to 200.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A colour outside its range or NaN; names the patch.</exception>
    public ChartPatch(PatchReading reading, Lab known)
    {
        Reading = Guard.NotNull(reading);
        Guard.InRange(known.L, 0, 100, "", $"L* of '{reading.Name}'");
        Guard.InRange(known.A, -200, 200, "", $"a* of '{reading.Name}'");
        Guard.InRange(known.B, -200, 200, "", $"b* of '{reading.Name}'");
        Known = known;
    }

    /// <summary>What the camera gives.</summary>
    public PatchReading Reading { get; }

    /// <summary>Its known colour.</summary>
    public Lab Known { get; }

    /// <inheritdoc/>
    public override string ToString() => Reading.Name;
}
