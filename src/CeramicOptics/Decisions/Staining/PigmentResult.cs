using System.Text.Json.Serialization;
using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// A pigment found from drawdowns, with its uncertainty and with every wavelength at which the layers did not suffice.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class PigmentResult : Report
{
    private readonly PigmentProblem _problem;
    private readonly CharacterizationResult.Solution?[] _pigment, _carrier;
    private readonly double _pigmentScale, _carrierScale;

    internal PigmentResult(
        string name, PigmentProblem problem, PigmentFit?[] fits, IEnumerable<PigmentPoint> points,
        IEnumerable<Finding> findings)
    {
        (Name, _problem, Points) = (name, problem, Guard.Copy(points));
        Findings = Guard.Copy(findings);
        PigmentUncertainty pigment = new(problem, fits, 0);
        (_pigment, _pigmentScale) = (pigment.Solutions, pigment.RelativeScale);
        if (problem.Unknowns == 4)
        {
            PigmentUncertainty carrier = new(problem, fits, 2);
            (_carrier, _carrierScale) = (carrier.Solutions, carrier.RelativeScale);
        }
        else
        {
            _carrier = [];
        }
    }

    /// <summary>Name of the pigment.</summary>
    internal string Name { get; }

    /// <summary>Wavelengths of the readings.</summary>
    public WavelengthGrid Grid => _problem.Layers[0].Layer.Grid;

    /// <summary>The theory to which K and S belong.</summary>
    public IOpticalModel Model => _problem.Model;

    /// <summary>The layers.</summary>
    public IReadOnlyList<Drawdown> Drawdowns => _problem.Layers;

    /// <summary>Remarks, in the order of wavelengths; empty when there is nothing to report.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>True when K and S are determined at every wavelength.</summary>
    public bool IsComplete => Findings.All(finding => finding.IsDetermined);

    /// <summary>Readings at a wavelength less what was fitted to them; 0 or less leaves nothing to judge by.</summary>
    public int DegreesOfFreedom => _problem.Readings - _problem.Unknowns;

    /// <summary>The fit at each wavelength, determined or not.</summary>
    public IReadOnlyList<PigmentPoint> Points { get; }

    /// <summary>
    /// The findings in words, one line for each kind with its wavelengths, such as "400 to 440 nm: absorption is zero
    /// within the noise and is set to zero"; where values differ, those of the worst wavelength.
    /// </summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public IReadOnlyList<string> ExplainFindings(IFormatProvider? provider = null) =>
        FindingLines.Of(Findings, Grid, Language.Of(provider));

    /// <summary>The pigment, with its uncertainty.</summary>
    /// <param name="part">For layers that fail only at an end, some of the wavelengths; null for all.</param>
    /// <exception cref="ArgumentException">A wavelength is not among those of the readings.</exception>
    /// <exception cref="InvalidOperationException">
    /// K and S are not determined at some of these wavelengths; the message names the first and counts them.
    /// </exception>
    public Pigment ToPigment(WavelengthGrid? part = null)
    {
        (AbsorptionSpectrum k, ScatteringSpectrum s, CoefficientUncertainty u) =
            On(part ?? Grid, _pigment, _pigmentScale);
        return new Pigment(Name, Model, k, s, u);
    }

    /// <summary>The carrier without pigment, as given or as found from the layers.</summary>
    /// <exception cref="InvalidOperationException">
    /// The layers leave it open at some wavelength; the message names the first and counts them.
    /// </exception>
    public Material ToCarrier()
    {
        if (_problem.Carrier is not null)
        {
            return _problem.Carrier;
        }

        int[] open = [.. Enumerable.Range(0, Grid.Count).Where(i => _carrier[i] is not { } at
            || !PigmentFit.IsKnown(at.Absorption, at.AbsorptionUncertainty, at.Scattering, at.ScatteringUncertainty,
                0.05 / _problem.ThicknessMm))];
        if (open.Length > 0)
        {
            throw new InvalidOperationException(
                $"The layers leave K and S of the carrier of '{Name}' open at {open.Length} of {Grid.Count} "
                    + $"wavelengths, first at {Guard.Text(Grid[open[0]])} nm; add a layer without pigment.");
        }

        (AbsorptionSpectrum k, ScatteringSpectrum s, CoefficientUncertainty u) = On(Grid, _carrier, _carrierScale);
        return new Material(
            "carrier", Model, k, s, Drawdowns[0].Layer.RefractiveIndex, u,
            Drawdowns.SelectMany(layer => layer.Layer.ThicknessesMm).Distinct().OrderBy(mm => mm));
    }

    /// <summary>For example "ochre, two-flux theory, 3 layers: 1 of 31 wavelengths not determined".</summary>
    private protected override string InWords(Language language)
    {
        int open = Findings.Count(finding => !finding.IsDetermined);
        return language.Text(
            open == 0 ? "PigmentResult.Complete" : "PigmentResult.Open", Name, Model, Drawdowns.Count, open,
            Grid.Count);
    }

    /// <summary>K and S at a wavelength with their uncertainty; null where they are not determined.</summary>
    internal CharacterizationResult.Solution? SolutionAt(int wavelength) => _pigment[wavelength];

    private (AbsorptionSpectrum K, ScatteringSpectrum S, CoefficientUncertainty U) On(
        WavelengthGrid part, CharacterizationResult.Solution?[] solutions, double scale)
    {
        int n = Guard.NotNull(part).Count;
        double[] k = new double[n], s = new double[n], uK = new double[n], uS = new double[n],
            correlation = new double[n];
        for (int i = 0; i < n; i++)
        {
            int j = Grid.IndexOf(part[i]);
            if (j < 0)
            {
                throw new ArgumentException(
                    $"{Guard.Text(part[i])} nm is not among the measured wavelengths, {Grid}.", nameof(part));
            }

            (k[i], s[i], uK[i], uS[i], correlation[i], _, _) = solutions[j] ?? throw Undetermined(part);
        }

        return (new AbsorptionSpectrum(part, k), new ScatteringSpectrum(part, s),
            new CoefficientUncertainty(uK, uS, correlation, scale));
    }

    private InvalidOperationException Undetermined(WavelengthGrid part)
    {
        Finding[] faults = [.. Findings.Where(
            finding => !finding.IsDetermined && finding.WavelengthNm is { } nm && part.IndexOf(nm) >= 0)];
        return new InvalidOperationException(
            $"K and S of '{Name}' are not determined at {faults.Length} of {part.Count} wavelengths; first at "
                + $"{faults[0]}");
    }
}
