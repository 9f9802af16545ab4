using CeramicOptics.Decisions.Uncertainty;

namespace CeramicOptics.Decisions.Discs;

/// <summary>A remark on a plan of discs.</summary>
public sealed class DiscFinding : Formattable
{
    internal DiscFinding(
        DiscFindingKind kind, string subject, double? value = null, Contribution? dominant = null) =>
        (Kind, Subject, Value, Dominant) = (kind, subject, value, dominant);

    /// <summary>What was found.</summary>
    public DiscFindingKind Kind { get; }

    /// <summary>The material or zone concerned.</summary>
    public string Subject { get; }

    /// <summary>The number that the <see cref="DiscFindingKind"/> states; null where there is none.</summary>
    public double? Value { get; }

    /// <summary>
    /// The input that dominates the uncertainty where no disc helps; null where K and S themselves dominate, and for
    /// other findings.
    /// </summary>
    public Contribution? Dominant { get; }

    /// <summary>The finding in words.</summary>
    private protected override string InWords(Language language) => language.Text(
        $"DiscFinding.{Kind}{(Dominant is null ? "" : ".Other")}", language.NameOf(Subject), Value, Dominant);
}
