using System.Text.Json.Serialization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>Surface terms of an instrument found from readings of discs.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class SurfaceFitResult : Report
{
    private readonly DiscSet _discs;

    internal SurfaceFitResult(
        DiscSet discs, double share, double inside, double shareUncertainty, double insideUncertainty,
        double chiSquare, int degreesOfFreedom, IEnumerable<Finding> findings)
    {
        _discs = discs;
        Findings = Guard.Copy(findings);
        (ChiSquare, DegreesOfFreedom) = (chiSquare, degreesOfFreedom);
        if (IsDetermined)
        {
            (SpecularShare, InternalReflectance) = (share, inside);
            (SpecularShareUncertainty, InternalReflectanceUncertainty) = (shareUncertainty, insideUncertainty);
        }
    }

    /// <summary>Remarks; empty when there is nothing to report.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>True when the terms are determined.</summary>
    public bool IsDetermined => Findings.All(finding => finding.IsDetermined);

    /// <summary>
    /// Share of the light reflected by the upper face itself that the instrument sees, 0 to 1: 1 for a polished face
    /// with specular light included, 0 for one with it excluded, between for a rough face. Null when not determined.
    /// </summary>
    public double? SpecularShare { get; }

    /// <summary>Standard uncertainty of <see cref="SpecularShare"/>.</summary>
    public double? SpecularShareUncertainty { get; }

    /// <summary>
    /// Reflectance of the upper face for the light inside, 0 to 0.95; about 0.6 for diffuse light and an index of 1.5.
    /// Null when not determined.
    /// </summary>
    public double? InternalReflectance { get; }

    /// <summary>Standard uncertainty of <see cref="InternalReflectance"/>.</summary>
    public double? InternalReflectanceUncertainty { get; }

    /// <summary>Sum of squared residuals over all readings and wavelengths, in units of their noise.</summary>
    public double ChiSquare { get; }

    /// <summary>Values read less those fitted.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>
    /// The readings as an instrument with the smooth surface that the library assumes would give them; characterize
    /// these.
    /// </summary>
    /// <exception cref="InvalidOperationException">The terms are not determined; says why.</exception>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A reading lies below what the fitted face alone returns.
    /// </exception>
    public DiscSet ToCorrected()
    {
        if (SpecularShare is not { } share || InternalReflectance is not { } inside)
        {
            throw new InvalidOperationException(
                $"The surface terms of '{_discs.Name}' are not determined: "
                    + $"{string.Join(" ", Findings.Where(finding => !finding.IsDetermined))}");
        }

        return new DiscSet(_discs.Name, _discs.RefractiveIndex, _discs.Readings.Select(reading =>
        {
            if (reading.IsTransmittance)
            {
                return reading;
            }

            double[] values = reading.Values.Values.ToArray();
            for (int i = 0; i < values.Length; i++)
            {
                double index = _discs.RefractiveIndex.At(_discs.Grid[i]);
                SurfaceTerms own = new(index, share, inside);
                values[i] = new SurfaceCorrection(reading.Geometry, index).Measured(own.Inverse(values[i]));
            }

            return reading.With(new ReflectanceSpectrum(_discs.Grid, values));
        }));
    }

    /// <summary>For example "specular share 0.35 ± 0.02, internal reflectance 0.50 ± 0.01".</summary>
    private protected override string InWords(Language language) => IsDetermined
        ? language.Text(
            "SurfaceFitResult", SpecularShare, SpecularShareUncertainty, InternalReflectance,
            InternalReflectanceUncertainty)
        : language.Join(" ", Findings);
}
