namespace CeramicOptics.Decisions.Delivered;

/// <summary>What a corrected quantity is, and of what.</summary>
internal readonly record struct QuantityKey(CorrectedKind Kind, string Subject, string? Batch = null)
{
    public bool IsScale => Kind is CorrectedKind.AbsorptionScale or CorrectedKind.ScatteringScale
        or CorrectedKind.BatchAbsorptionScale or CorrectedKind.BatchScatteringScale;

    /// <summary>A subject in words, with its batch where it has one.</summary>
    public static string Title(Language language, string subject, string? batch) =>
        batch is null ? language.NameOf(subject) : language.Text("Batch", language.NameOf(subject), batch);
}
