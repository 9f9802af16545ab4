namespace CeramicOptics.Decisions.Delivered;

/// <summary>A remark on a correction.</summary>
public sealed class CorrectionFinding : Formattable
{
    internal CorrectionFinding(
        CorrectionFindingKind kind, string subject, double? value, QuantityKey? quantity = null) =>
        (Kind, Subject, Value, Quantity, Batch) = (kind, subject, value, quantity?.Kind, quantity?.Batch);

    /// <summary>What was found.</summary>
    public CorrectionFindingKind Kind { get; }

    /// <summary>The piece, ceramic, cement, furnace or record concerned.</summary>
    public string Subject { get; }

    /// <summary>The quantity that moved far; null for other findings.</summary>
    public CorrectedKind? Quantity { get; }

    /// <summary>The batch of that quantity; null where it has none.</summary>
    public string? Batch { get; }

    /// <summary>The number concerned; null where there is none.</summary>
    public double? Value { get; }

    /// <summary>The finding in words.</summary>
    private protected override string InWords(Language language) =>
        language.Text($"CorrectionFinding.{Kind}", QuantityKey.Title(language, Subject, Batch), Value, Quantity);
}
