namespace CeramicOptics.Spectra;

/// <summary>An outlying replicate, or a drift over all of them.</summary>
public sealed class ReplicateFinding : Formattable
{
    internal ReplicateFinding(
        ReplicateFindingKind kind, int? replicate, double? wavelengthNm, double change, double probability) =>
        (Kind, Replicate, WavelengthNm, Change, Probability) = (kind, replicate, wavelengthNm, change, probability);

    /// <summary>An outlier or a drift.</summary>
    public ReplicateFindingKind Kind { get; }

    /// <summary>Which replicate lies apart, from 1; null for a drift.</summary>
    public int? Replicate { get; }

    /// <summary>Where it shows most, nm; null when it shows most in the mean over all wavelengths.</summary>
    public double? WavelengthNm { get; }

    /// <summary>
    /// Distance of the outlier from the mean of all, or change from the first replicate to the last: reflectance.
    /// </summary>
    public double Change { get; }

    /// <summary>Upper bound of the probability of as much by chance, all tests of its kind together: to 0.01.</summary>
    public double Probability { get; }

    /// <summary>For example "replicate 3 lies 0.0210 above the mean at 450 nm (Grubbs' test, p ≤ 0.0004)".</summary>
    private protected override string InWords(Language language)
    {
        string where = WavelengthNm is { } nm
            ? language.Text("ReplicateFinding.At", nm)
            : language.Text("ReplicateFinding.Overall");
        string key = (Kind, Change > 0) switch
        {
            (ReplicateFindingKind.Outlier, true) => "ReplicateFinding.OutlierAbove",
            (ReplicateFindingKind.Outlier, false) => "ReplicateFinding.OutlierBelow",
            (_, true) => "ReplicateFinding.DriftAbove",
            _ => "ReplicateFinding.DriftBelow",
        };
        return language.Text(
            key, Replicate, Math.Abs(Change), where, Math.Max(0.0001, Guard.RoundedUp(Probability, 4)));
    }
}
