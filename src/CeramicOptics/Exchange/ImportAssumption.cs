namespace CeramicOptics.Exchange;

/// <summary>Something that was assumed while a file was read, because the file does not say it.</summary>
public sealed record ImportAssumption
{
    internal ImportAssumption(ImportAssumptionKind kind, string text) => (Kind, Text) = (kind, text);

    /// <summary>What was assumed.</summary>
    public ImportAssumptionKind Kind { get; }

    /// <summary>The same in words, with what the file holds.</summary>
    public string Text { get; }

    /// <summary>The words.</summary>
    public override string ToString() => Text;
}
