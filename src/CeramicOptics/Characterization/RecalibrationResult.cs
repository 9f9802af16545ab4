using CeramicOptics.Layers;

namespace CeramicOptics.Characterization;

/// <summary>A material with constants of another theory, and how well they reproduce the old ones.</summary>
public sealed class RecalibrationResult : Formattable
{
    internal RecalibrationResult(Material material, double largestResidual, double? largestColorDifference) =>
        (Material, LargestResidual, LargestColorDifference) = (material, largestResidual, largestColorDifference);

    /// <summary>
    /// The material with constants of the theory asked for. It carries the thicknesses of the discs that were
    /// simulated.
    /// </summary>
    public Material Material { get; }

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
    /// For example "granary, radiative transfer (g = 0), discs of 0.8 mm: within 0.0001 of the readings, 0.0
    /// CIEDE2000".
    /// </summary>
    private protected override string InWords(Language language)
    {
        string color = LargestColorDifference is double difference
            ? language.Text("RecalibrationResult.Color", difference)
            : "";
        return language.Text(
            "RecalibrationResult", Material.Name, Material.Model, language.Join(", ", DiscThicknessesMm),
            LargestResidual, color);
    }
}
