using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>K and S found from a disc, with their uncertainty and with every wavelength at which the data did not suffice.</summary>
public sealed class CharacterizationResult
{
    private readonly Solution?[] _solutions;

    internal CharacterizationResult(DiscMeasurement measurement, Solution?[] solutions, IEnumerable<Finding> findings)
    {
        Measurement = measurement;
        _solutions = solutions;
        Findings = Guard.Copy(findings);
    }

    /// <summary>The measurement this comes from.</summary>
    public DiscMeasurement Measurement { get; }

    /// <summary>Remarks, in the order of wavelengths; empty when all went well.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>True when K and S are determined at every wavelength.</summary>
    public bool IsComplete => Findings.All(finding => finding.IsDetermined);

    /// <summary>The material, with its uncertainty.</summary>
    /// <exception cref="InvalidOperationException">K and S are not determined at some wavelength; the message names the first and counts them.</exception>
    public Material ToMaterial() => ToMaterial(Measurement.Grid);

    /// <summary>The material on a part of the measured wavelengths, for data that fails only at an end.</summary>
    /// <param name="part">Wavelengths that are all among the measured ones.</param>
    /// <exception cref="ArgumentException">A wavelength is not among the measured ones.</exception>
    /// <exception cref="InvalidOperationException">K and S are not determined at some wavelength of the part; the message names the first and counts them.</exception>
    public Material ToMaterial(WavelengthGrid part)
    {
        int n = Guard.NotNull(part).Count;
        double[] k = new double[n], s = new double[n], uK = new double[n], uS = new double[n], correlation = new double[n];
        for (int i = 0; i < n; i++)
        {
            int j = Measurement.Grid.IndexOf(part[i]);
            if (j < 0)
            {
                throw new ArgumentException($"{Guard.Text(part[i])} nm is not among the measured wavelengths, {Measurement.Grid}.", nameof(part));
            }

            Solution solution = _solutions[j] ?? throw Undetermined(part);
            (k[i], s[i], uK[i], uS[i], correlation[i]) =
                (solution.Absorption, solution.Scattering, solution.AbsorptionUncertainty, solution.ScatteringUncertainty, solution.Correlation);
        }

        CoefficientUncertainty uncertainty = new(uK, uS, correlation, Math.Min(1, Measurement.ThicknessStandardUncertaintyMm / Measurement.ThicknessMm));
        return new Material(
            Measurement.Name, new AbsorptionSpectrum(part, k), new ScatteringSpectrum(part, s), Measurement.RefractiveIndex, uncertainty);
    }

    private InvalidOperationException Undetermined(WavelengthGrid part)
    {
        Finding[] faults = [.. Findings.Where(finding => !finding.IsDetermined && part.IndexOf(finding.WavelengthNm) >= 0)];
        return new InvalidOperationException(
            $"K and S of '{Measurement.Name}' are not determined at {faults.Length} of {part.Count} wavelengths; first at {Guard.Text(faults[0].WavelengthNm)} nm: {faults[0].Message}");
    }

    internal sealed record Solution(
        double Absorption, double Scattering, double AbsorptionUncertainty, double ScatteringUncertainty, double Correlation);
}
