using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>
/// Converts raw readings of an instrument into reflectance factors by a certified white and a black (light trap or open
/// port).
/// </summary>
/// <remarks>R = R_white (raw - black) / (white - black), at each wavelength. Immutable and safe to share.</remarks>
public sealed class InstrumentCalibration
{
    private readonly ReflectanceSpectrum _certifiedWhite;
    private readonly double[] _rawWhite, _rawBlack;

    /// <summary>A calibration.</summary>
    /// <param name="certifiedWhite">
    /// Reflectance factor of the white standard from its certificate, in the instrument's geometry.
    /// </param>
    /// <param name="rawWhite">Raw reading of that standard at each wavelength, any linear unit.</param>
    /// <param name="rawBlack">Raw reading of the trap or open port at each wavelength, same unit.</param>
    /// <exception cref="ArgumentException">
    /// Lengths differ from the certificate's grid, or a white reading is not above the black one; names the wavelength.
    /// </exception>
    public InstrumentCalibration(
        ReflectanceSpectrum certifiedWhite, ReadOnlySpan<double> rawWhite, ReadOnlySpan<double> rawBlack)
    {
        _certifiedWhite = Guard.NotNull(certifiedWhite);
        RequireLength(rawWhite, nameof(rawWhite));
        RequireLength(rawBlack, nameof(rawBlack));
        for (int i = 0; i < rawWhite.Length; i++)
        {
            if (!(rawWhite[i] - rawBlack[i] > 0 && Guard.IsFinite(rawWhite[i]) && Guard.IsFinite(rawBlack[i])))
            {
                throw new ArgumentException(
                    $"At {Guard.Text(certifiedWhite.Grid[i])} nm the white standard reads {Guard.Text(rawWhite[i])} "
                        + $"and the black {Guard.Text(rawBlack[i])}; white must be above black.");
            }
        }

        (_rawWhite, _rawBlack) = (rawWhite.ToArray(), rawBlack.ToArray());
    }

    /// <summary>Reflectance factor of a specimen.</summary>
    /// <param name="raw">Raw reading at each wavelength, same unit as the calibration.</param>
    /// <exception cref="ArgumentException">The length differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A result is below 0 or above 1.1; names the wavelength.
    /// </exception>
    public ReflectanceSpectrum ToReflectance(ReadOnlySpan<double> raw)
    {
        RequireLength(raw, nameof(raw));
        double[] values = new double[raw.Length];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = _certifiedWhite[i] * (raw[i] - _rawBlack[i]) / (_rawWhite[i] - _rawBlack[i]);
        }

        return new ReflectanceSpectrum(_certifiedWhite.Grid, values);
    }

    private void RequireLength(ReadOnlySpan<double> values, string name)
    {
        if (values.Length != _certifiedWhite.Grid.Count)
        {
            throw new ArgumentException(
                $"{name} has {values.Length} values but the certificate is given at {_certifiedWhite.Grid}.", name);
        }
    }
}
