using System.Text.Json.Serialization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Characterization;

/// <summary>
/// K and S found from readings of discs, with their uncertainty and with every wavelength at which the data did not
/// suffice.
/// </summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class CharacterizationResult : Report
{
    // Shade tabs are 3 to 4 mm thick (common practice, no source); what is thicker is no disc of a thin wall, and
    // what is thinner than a tenth of a millimetre may be a thickness in another unit.
    private const double ThickDiscMm = 4, ThinDiscMm = 0.1;

    private readonly DiscSet _discs;
    private readonly Solution?[] _solutions;
    private readonly double _relativeScale;

    internal CharacterizationResult(
        DiscSet discs, IOpticalModel model, Solution?[] solutions, IEnumerable<Finding> findings,
        FitStatistics? fit = null, IEnumerable<LargeAreaReading>? largeAreaReadings = null,
        CharacterizationResult? uncorrected = null, CouplingCheck? coupling = null)
    {
        (_discs, Coupling) = (discs, coupling);
        (Name, Grid, RefractiveIndex, Model, Fit) = (discs.Name, discs.Grid, discs.RefractiveIndex, model, fit);
        (DiscThicknessesMm, _solutions, _relativeScale) = (discs.ThicknessesMm, solutions, discs.RelativeScale);
        Findings = Guard.Copy(findings);
        LargeAreaReadings = Guard.Copy(largeAreaReadings ?? []);
        Uncorrected = uncorrected;
    }

    /// <summary>Name of the material.</summary>
    public string Name { get; }

    /// <summary>Wavelengths of the readings.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Index of the material.</summary>
    internal RefractiveIndex RefractiveIndex { get; }

    /// <summary>The theory to which K and S belong.</summary>
    public IOpticalModel Model { get; }

    /// <summary>Thicknesses of the discs that were read, mm.</summary>
    internal IReadOnlyList<double> DiscThicknessesMm { get; }

    /// <summary>Remarks, in the order of wavelengths; empty when there is nothing to report.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>
    /// How well a fit describes its readings; null for the closed form, which has nothing left to judge by.
    /// </summary>
    public FitStatistics? Fit { get; }

    /// <summary>
    /// The fit repeated with the other film between disc and backing: whether they can tell the two apart, and what
    /// would come out. Null without a tile under a disc, where films differ between the readings, and where no
    /// wavelength can be fitted with the other film.
    /// </summary>
    public CouplingCheck? Coupling { get; }

    /// <summary>
    /// What a large instrument would have read, for each reading through a window; empty when there is none.
    /// </summary>
    public IReadOnlyList<LargeAreaReading> LargeAreaReadings { get; }

    /// <summary>
    /// What the same readings would give if light that spreads sideways were left out; null when all areas are large.
    /// </summary>
    public CharacterizationResult? Uncorrected { get; }

    /// <summary>True when K and S are determined at every wavelength.</summary>
    public bool IsComplete => Findings.All(finding => finding.IsDetermined);

    /// <summary>
    /// The findings in words, one line for each kind with its wavelengths, such as "400 to 440 nm: absorption is zero
    /// within the noise and is set to zero"; where values differ, those of the worst wavelength.
    /// </summary>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public IReadOnlyList<string> ExplainFindings(IFormatProvider? provider = null) =>
        FindingLines.Of(Findings, Grid, Language.Of(provider));

    /// <summary>The material, with its uncertainty.</summary>
    /// <param name="part">
    /// For data that fails only at an end, some of the measured wavelengths; null for all.
    /// </param>
    /// <exception cref="ArgumentException">A wavelength is not among the measured ones.</exception>
    /// <exception cref="InvalidOperationException">
    /// K and S are not determined at some of these wavelengths; the message names the first and counts them.
    /// </exception>
    public Material ToMaterial(WavelengthGrid? part = null)
    {
        part ??= Grid;
        int n = part.Count;
        double[] k = new double[n], s = new double[n], uK = new double[n], uS = new double[n],
            correlation = new double[n], commonK = new double[n], commonS = new double[n];
        for (int i = 0; i < n; i++)
        {
            int j = Grid.IndexOf(part[i]);
            if (j < 0)
            {
                throw new ArgumentException(
                    $"{Guard.Text(part[i])} nm is not among the measured wavelengths, {Grid}.", nameof(part));
            }

            (k[i], s[i], uK[i], uS[i], correlation[i], commonK[i], commonS[i]) =
                _solutions[j] ?? throw Undetermined(part);
        }

        return new Material(
            Name,
            Model,
            new AbsorptionSpectrum(part, k),
            new ScatteringSpectrum(part, s),
            RefractiveIndex,
            new CoefficientUncertainty(uK, uS, correlation, _relativeScale, commonK, commonS),
            DiscThicknessesMm);
    }

    /// <summary>
    /// For example "granary, radiative transfer (g = 0), discs of 0.8 mm: 1 of 31 wavelengths not determined".
    /// </summary>
    private protected override string InWords(Language language)
    {
        int open = Findings.Count(finding => !finding.IsDetermined);
        return language.Text(
            open == 0 ? "CharacterizationResult.Complete" : "CharacterizationResult.Open", Name, Model,
            language.Join(", ", DiscThicknessesMm), open, Grid.Count);
    }

    /// <summary>K and S at a wavelength with their uncertainty; null when they are not determined.</summary>
    internal Solution? SolutionAt(int wavelength) => _solutions[wavelength];

    /// <summary>
    /// The same result with a comparison of films, and with findings about the readings as a whole: a film that is
    /// doubtful, a disc so thick that it tells little.
    /// </summary>
    internal CharacterizationResult With(CouplingCheck? coupling)
    {
        List<Finding> whole = [];
        if (coupling?.Verdict == CouplingVerdict.Doubtful)
        {
            double[] fits = [coupling.ChiSquare, coupling.OtherChiSquare, coupling.DegreesOfFreedom];
            double[] scattering = coupling.ScatteringPerMm is { } stated
                ? [stated, coupling.OtherScatteringPerMm]
                : [coupling.OtherScatteringPerMm];
            whole.Add(new Finding(null, FindingKind.CouplingDoubtful, [.. fits, .. scattering]));
        }

        double thickestMm = DiscThicknessesMm[DiscThicknessesMm.Count - 1];
        if (thickestMm > ThickDiscMm)
        {
            whole.Add(new Finding(null, FindingKind.ThickDisc, thickestMm));
        }

        if (DiscThicknessesMm[0] < ThinDiscMm)
        {
            whole.Add(new Finding(null, FindingKind.ThinDisc, DiscThicknessesMm[0]));
        }

        return new(
            _discs, Model, _solutions, [.. whole, .. Findings], Fit, LargeAreaReadings, Uncorrected, coupling);
    }

    private InvalidOperationException Undetermined(WavelengthGrid part)
    {
        Finding[] faults = [.. Findings.Where(
            finding => !finding.IsDetermined && finding.WavelengthNm is { } nm && part.IndexOf(nm) >= 0)];
        return new InvalidOperationException(
            $"K and S of '{Name}' are not determined at {faults.Length} of {part.Count} wavelengths; first at "
                + $"{faults[0]}");
    }

    internal sealed record Solution(
        double Absorption, double Scattering, double AbsorptionUncertainty, double ScatteringUncertainty,
        double Correlation, double CommonAbsorption = 0, double CommonScattering = 0)
    {
        /// <summary>Uncertainties from a covariance matrix, never NaN.</summary>
        public static Solution FromCovariance(double k, double s, double varianceK, double varianceS, double covariance)
        {
            double uK = Math.Min(1e6, Math.Sqrt(Math.Max(0, varianceK)));
            double uS = Math.Min(1e6, Math.Sqrt(Math.Max(0, varianceS)));
            double correlation = uK * uS > 0 ? covariance / (uK * uS) : 0;
            return new Solution(k, s, uK, uS, Math.Min(1, Math.Max(-1, correlation)));
        }
    }
}
