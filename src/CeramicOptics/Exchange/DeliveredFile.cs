using CeramicOptics.Decisions.Delivered;

namespace CeramicOptics.Exchange;

/// <summary>A <see cref="DeliveredRecord"/> as an open JSON file that only grows.</summary>
/// <remarks>
/// The schema is docs/schema/delivered-record.schema.json, version 1. Unknown and repeated keys are refused, and so are
/// dates that run backwards, names given twice, and predictions and readings that cannot be compared. Numbers read back
/// exactly.
/// </remarks>
public static class DeliveredFile
{
    /// <summary>Reads a record from a file.</summary>
    /// <param name="path">Path of the file, at most 64 MiB.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the path of the element.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static DeliveredRecord Load(string path)
    {
        using FileStream stream = File.OpenRead(Guard.NotBlank(path));
        return Read(stream, Path.GetFileName(path));
    }

    /// <summary>Reads a record.</summary>
    /// <param name="stream">UTF-8 JSON, at most 64 MiB.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">The text is faulty; names the line or the path of the element.</exception>
    public static DeliveredRecord Read(Stream stream, string source) =>
        DeliveredJson.Read(Guard.NotNull(stream), Guard.NotBlank(source));

    /// <summary>
    /// Writes a record to a file. An existing file must be continued: the record must begin with all its pieces. The
    /// old file is replaced only when the new one is complete.
    /// </summary>
    /// <param name="record">The record.</param>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ArgumentException">
    /// A piece of the existing file is missing or changed, or a piece is under an illuminant or observer that is not
    /// the CIE's.
    /// </exception>
    /// <exception cref="ExchangeException">The existing file is faulty.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public static void Save(DeliveredRecord record, string path)
    {
        IReadOnlyList<DeliveredPiece> pieces = Guard.NotNull(record).Pieces;
        if (File.Exists(Guard.NotBlank(path)))
        {
            IReadOnlyList<DeliveredPiece> before = Load(path).Pieces;
            for (int i = 0; i < before.Count; i++)
            {
                if (i >= pieces.Count || !DeliveredJson.AreSame(before[i], pieces[i]))
                {
                    throw new ArgumentException(
                        $"{Path.GetFileName(path)} holds piece '{before[i].Name}' at place {Guard.Text(i + 1)}, which "
                            + $"the record {(i >= pieces.Count ? "lacks" : "changes")}; a record can only grow.",
                        nameof(record));
                }
            }
        }

        JsonFile.Save(path, stream => Write(record, stream));
    }

    /// <summary>Writes a record as indented UTF-8 JSON.</summary>
    /// <param name="record">The record.</param>
    /// <param name="stream">Destination.</param>
    /// <exception cref="ArgumentException">
    /// A piece is under an illuminant or observer that is not the CIE's.
    /// </exception>
    public static void Write(DeliveredRecord record, Stream stream) =>
        DeliveredJson.Write(Guard.NotNull(record), Guard.NotNull(stream));
}
