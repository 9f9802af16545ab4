namespace CeramicOptics.Decisions.Delivered;

/// <summary>How well predictions and readings of delivered pieces agree.</summary>
public static class Agreement
{
    /// <summary>Bias and limits of agreement of every group of pieces.</summary>
    /// <param name="record">The pieces; at least one.</param>
    /// <param name="by">The property by which they are grouped.</param>
    /// <returns>The groups in the order of their first piece.</returns>
    /// <exception cref="ArgumentException">The record has no piece.</exception>
    public static IReadOnlyList<AgreementGroup> Find(DeliveredRecord record, AgreementBy by)
    {
        Guard.Defined(by);
        Guard.Copy(Guard.NotNull(record).Pieces, minimumCount: 1, nameof(record));
        return Guard.Copy(record.Pieces
            .GroupBy(piece => (
                Name: by switch
                {
                    AgreementBy.All => "all pieces",
                    AgreementBy.Ceramic or AgreementBy.Batch => piece.Ceramic,
                    AgreementBy.Cement => piece.Cement ?? "not bonded",
                    _ => piece.Furnace ?? PieceCase.NoFurnace,
                },
                Batch: by == AgreementBy.Batch ? piece.Batch : null))
            .Select(group => new AgreementGroup(group.Key.Name, group.Key.Batch, [.. group])));
    }
}
