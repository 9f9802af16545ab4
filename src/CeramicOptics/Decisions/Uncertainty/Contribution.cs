using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions.Uncertainty;

/// <summary>The effect of one uncertain input on a difference.</summary>
public sealed class Contribution : Formattable
{
    internal Contribution(
        UncertainInput input, LayerRole? role, string? material, double low, double high, double share) =>
        (Input, Role, Material, DifferenceLow, DifferenceHigh, Share) = (input, role, material, low, high, share);

    /// <summary>The input.</summary>
    public UncertainInput Input { get; }

    /// <summary>Role of the layer it concerns; null for stump, target and model.</summary>
    public LayerRole? Role { get; }

    /// <summary>Name of the material it concerns; null for stump, target and model.</summary>
    public string? Material { get; }

    /// <summary>
    /// Largest difference over illuminants with the input one standard uncertainty lower, all others at their values.
    /// </summary>
    public double DifferenceLow { get; }

    /// <summary>The same, one standard uncertainty higher.</summary>
    public double DifferenceHigh { get; }

    /// <summary>Share of this input in the sum of squared changes of all, 0 to 1.</summary>
    public double Share { get; }

    /// <summary>The input in words, such as "thickness of body ceramic".</summary>
    private protected override string InWords(Language language) =>
        language.Text($"Contribution.{Input}", Material);
}
