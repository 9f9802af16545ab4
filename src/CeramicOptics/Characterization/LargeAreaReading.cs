using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>A reading through a window, and what an instrument with a large area would have read.</summary>
/// <remarks>
/// Immutable. Values stand at the longest run of wavelengths at which constants were found, which may be shorter than
/// the reading.
/// </remarks>
public sealed class LargeAreaReading : Formattable
{
    private readonly double[] _standardUncertainty, _lostShare;

    internal LargeAreaReading(
        string name, ReadingArea area, Spectrum read, Spectrum values, double[] standardUncertainty, double[] lostShare)
    {
        (Name, Area, Read, Values) = (name, area, read, values);
        (_standardUncertainty, _lostShare) = (standardUncertainty, lostShare);
    }

    /// <summary>Name of the reading.</summary>
    public string Name { get; }

    /// <summary>The area that the instrument illuminated and measured.</summary>
    internal ReadingArea Area { get; }

    /// <summary>What it read, at the wavelengths of <see cref="Values"/>.</summary>
    public Spectrum Read { get; }

    /// <summary>
    /// What a large area would have given; a <see cref="ReflectanceSpectrum"/> or a
    /// <see cref="TransmittanceSpectrum"/>.
    /// </summary>
    public Spectrum Values { get; }

    /// <summary>
    /// Standard uncertainty of <see cref="Values"/>: noise of the reading, enlarged by the correction, and what is not
    /// known of the scattering.
    /// </summary>
    public ReadOnlySpan<double> StandardUncertainty => _standardUncertainty;

    /// <summary>Share of the large reading that the window loses, at each wavelength; 0 for none.</summary>
    public ReadOnlySpan<double> LostShare => _lostShare;

    /// <summary>Largest of <see cref="LostShare"/>.</summary>
    internal double LargestLoss => _lostShare.Max();

    /// <summary>For example "over white, spot of 2 mm and window of 2 mm radius: loses up to 41 %".</summary>
    private protected override string InWords(Language language) =>
        language.Text("LargeAreaReading", Name, Area, LargestLoss);
}
