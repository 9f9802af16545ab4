namespace CeramicOptics;

/// <summary>What the library puts into words, in each <see cref="Language"/>.</summary>
public abstract class Formattable : IFormattable
{
    private protected Formattable()
    {
    }

    /// <summary>In words, in English; in another language with <see cref="FormattableExtensions.ToString"/>.</summary>
    public sealed override string ToString() => InWords(Language.English);

    string IFormattable.ToString(string? format, IFormatProvider? provider) => InWords(Language.Of(provider));

    private protected abstract string InWords(Language language);
}
