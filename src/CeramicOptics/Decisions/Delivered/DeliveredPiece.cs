using System.Globalization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>One finished piece (one zone of it): what was predicted, and what was read once it was made.</summary>
/// <remarks>
/// Immutable; compared by reference. It holds names, not optical data: these are in the catalogue and in the case.
/// </remarks>
public sealed class DeliveredPiece : Formattable
{
    /// <summary>A piece.</summary>
    /// <param name="name">Name that no other piece of the record has, such as that of the case and the zone.</param>
    /// <param name="date">Day of the reading; the time of day is dropped.</param>
    /// <param name="ceramic">Name of the ceramic's material.</param>
    /// <param name="batch">Batch of the ceramic.</param>
    /// <param name="wallMm">Thickness of the wall (core and veneer) as planned, 0.001 to 100 mm.</param>
    /// <param name="stump">Name of the stump.</param>
    /// <param name="predicted">The predicted colour.</param>
    /// <param name="read">
    /// The colour read, in the same geometry, and under the same illuminant and observer unless its spectrum is known.
    /// </param>
    /// <exception cref="ArgumentException">
    /// A name is empty; prediction and reading differ in geometry, or in illuminant or observer with no spectrum.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">Thickness outside its range or NaN.</exception>
    public DeliveredPiece(
        string name, DateTime date, string ceramic, string batch, double wallMm, string stump, ColorReading predicted,
        ColorReading read)
    {
        Name = Guard.NotBlank(name);
        Date = date.Date;
        Ceramic = Guard.NotBlank(ceramic);
        Batch = Guard.NotBlank(batch);
        WallMm = Guard.InRange(wallMm, 1e-3, Layer.MaximumThicknessMm, "mm", $"wall of piece '{name}'");
        Stump = Guard.NotBlank(stump);
        Predicted = Guard.NotNull(predicted);
        Read = Guard.NotNull(read);
        if (predicted.Geometry != read.Geometry)
        {
            throw new ArgumentException(
                $"Piece '{name}' was predicted for {predicted.Geometry} but read in {read.Geometry}; predict it for "
                    + "the geometry of the reading.", nameof(read));
        }

        ReadColor = read.ColorUnder(predicted.Under) ?? throw new ArgumentException(
            $"Piece '{name}' was predicted under {predicted.Under.Name} but read under {read.Under.Name}, without a "
                + "spectrum; predict it under the light of the reading.", nameof(read));
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Day of the reading.</summary>
    public DateTime Date { get; }

    /// <summary>Name of the ceramic's material.</summary>
    public string Ceramic { get; }

    /// <summary>Batch of the ceramic.</summary>
    public string Batch { get; }

    /// <summary>Thickness of the wall as planned, mm.</summary>
    public double WallMm { get; }

    /// <summary>Name of the stump.</summary>
    public string Stump { get; }

    /// <summary>The predicted colour.</summary>
    public ColorReading Predicted { get; }

    /// <summary>The colour read.</summary>
    public ColorReading Read { get; }

    /// <summary>
    /// Name of the cement's material; null for a piece that was read after firing, before it was bonded.
    /// </summary>
    /// <exception cref="ArgumentException">Empty.</exception>
    public string? Cement { get; init => field = value is null ? null : Guard.NotBlank(value, nameof(Cement)); }

    /// <summary>The furnace it was fired in; null where that is not recorded.</summary>
    /// <exception cref="ArgumentException">Empty.</exception>
    public string? Furnace { get; init => field = value is null ? null : Guard.NotBlank(value, nameof(Furnace)); }

    /// <summary>The colour read, under the illuminant and observer of the prediction.</summary>
    public Lab ReadColor { get; }

    /// <summary>Reading minus prediction.</summary>
    public ColorDeviation Deviation => new(
        ReadColor.L - Predicted.Color.L, ReadColor.A - Predicted.Color.A, ReadColor.B - Predicted.Color.B);

    /// <summary>CIEDE2000 of reading and prediction.</summary>
    public double Difference => ColorDifference.Ciede2000(Predicted.Color, ReadColor);

    /// <summary>For example "case 7 (2026-03-02): ΔL* +0.8, Δa* -0.1, Δb* +1.2".</summary>
    private protected override string InWords(Language language) => language.Text(
        "DeliveredPiece", Name, Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Deviation);
}
