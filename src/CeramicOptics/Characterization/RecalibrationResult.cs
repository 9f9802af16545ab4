using System.Text.Json.Serialization;
using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>A material with constants of another theory, and how well they reproduce the old ones.</summary>
[JsonConverter(typeof(ReportConverter))]
public sealed class RecalibrationResult : Report
{
    internal RecalibrationResult(
        Material material, IOpticalModel from, double largestResidual, double? largestColorDifference)
    {
        (Material, From) = (material, from);
        (LargestResidual, LargestColorDifference) = (largestResidual, largestColorDifference);
        if (!from.IsSameTheoryAs(material.Model))
        {
            Material = new Material(
                material.Name, material.Model, material.Absorption, material.Scattering, material.RefractiveIndex,
                material.Uncertainty, material.DiscThicknessesMm) { Origin = ToString() };
        }
    }

    /// <summary>
    /// The material with constants of the theory asked for. It carries the thicknesses of the discs that were
    /// simulated; as text it says what was fitted, and how well.
    /// </summary>
    public Material Material { get; }

    /// <summary>The theory of the constants given, whose readings of the discs were fitted.</summary>
    public IOpticalModel From { get; }

    /// <summary>
    /// Largest difference of a reflectance of the discs, over black or white, between the two theories with their own
    /// constants.
    /// </summary>
    public double LargestResidual { get; }

    /// <summary>
    /// The same as a colour difference, CIEDE2000 under D65, 2 degree observer; null where the data do not reach from
    /// 400 to 700 nm.
    /// </summary>
    public double? LargestColorDifference { get; }

    /// <summary>
    /// Thicknesses of the discs that were simulated, mm; the theories agree there and drift apart away from them.
    /// </summary>
    internal IReadOnlyList<double> DiscThicknessesMm => Material.DiscThicknessesMm;

    /// <summary>
    /// For example "granary: two-flux theory fitted to radiative transfer (g = 0), discs of 0.8 mm, reflectance within
    /// 0.000012, colour within 0.0031 CIEDE2000".
    /// </summary>
    private protected override string InWords(Language language)
    {
        if (From.IsSameTheoryAs(Material.Model))
        {
            return language.Text("RecalibrationResult.Same", Material.Name, Material.Model);
        }

        string color = LargestColorDifference is double difference
            ? language.Text("RecalibrationResult.Color", UpToTwoDigits(difference, 0.001))
            : "";
        return language.Text(
            "RecalibrationResult", Material.Name, Material.Model, From, language.Join(", ", DiscThicknessesMm),
            UpToTwoDigits(LargestResidual, 1e-6), color);
    }

    // Rounded up to two digits, and to the least that is worth telling.
    private static double UpToTwoDigits(double value, double least)
    {
        double shown = Math.Max(value, least);
        return Guard.RoundedUp(shown, Math.Max(0, 1 - (int)Math.Floor(Math.Log10(shown))));
    }
}
