namespace CeramicOptics.Decisions.Delivered;

/// <summary>The finished pieces of a laboratory in the order of their dates: a list that only grows.</summary>
/// <remarks>
/// Immutable: appending gives a longer record. <see cref="CeramicOptics.Exchange.DeliveredFile"/> keeps it as a file,
/// which only grows too.
/// </remarks>
public sealed class DeliveredRecord : Formattable
{
    private DeliveredRecord(string name, IReadOnlyList<DeliveredPiece> pieces) => (Name, Pieces) = (name, pieces);

    /// <summary>Name, such as that of the laboratory.</summary>
    public string Name { get; }

    /// <summary>The pieces, oldest first.</summary>
    public IReadOnlyList<DeliveredPiece> Pieces { get; }

    /// <summary>A record without pieces.</summary>
    /// <param name="name">Name, such as that of the laboratory.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public static DeliveredRecord Start(string name) => new(Guard.NotBlank(name), Guard.Copy<DeliveredPiece>([]));

    /// <summary>The record with one more piece.</summary>
    /// <param name="piece">The piece, not older than the last.</param>
    /// <exception cref="ArgumentException">
    /// A piece of this name is in the record already, or the piece is older than the last one.
    /// </exception>
    public DeliveredRecord Append(DeliveredPiece piece) => Append([Guard.NotNull(piece)]);

    /// <summary>The record with more pieces.</summary>
    /// <param name="pieces">The pieces, oldest first.</param>
    /// <exception cref="ArgumentException">
    /// A piece of one of these names is in the record already, or a date runs backwards.
    /// </exception>
    public DeliveredRecord Append(IEnumerable<DeliveredPiece> pieces)
    {
        List<DeliveredPiece> all = [.. Pieces];
        HashSet<string> names = [.. all.Select(piece => piece.Name)];
        foreach (DeliveredPiece piece in Guard.Copy(pieces))
        {
            if (!names.Add(piece.Name))
            {
                throw new ArgumentException($"Piece '{piece.Name}' is in the record already.", nameof(pieces));
            }

            if (all.Count > 0 && piece.Date < all[all.Count - 1].Date)
            {
                DeliveredPiece last = all[all.Count - 1];
                throw new ArgumentException(
                    FormattableString.Invariant($"Piece '{piece.Name}' of {piece.Date:yyyy-MM-dd} is older than piece ")
                        + FormattableString.Invariant($"'{last.Name}' of {last.Date:yyyy-MM-dd}, the last of the ")
                        + "record; dates must not run backwards.", nameof(pieces));
            }

            all.Add(piece);
        }

        return new DeliveredRecord(Name, Guard.Copy(all));
    }

    /// <summary>Name and number of pieces.</summary>
    private protected override string InWords(Language language) =>
        language.Text("DeliveredRecord", Name, Pieces.Count);
}
