namespace CeramicOptics;

/// <summary>Words in the language of a culture.</summary>
public static class FormattableExtensions
{
    /// <summary>A value or an answer of the library in words, in the language and with the numbers of a
    /// culture.</summary>
    /// <param name="value">The value or answer.</param>
    /// <param name="provider">A culture or a <see cref="Language"/>; null for English.</param>
    public static string ToString(this IFormattable value, IFormatProvider? provider) =>
        Guard.NotNull(value).ToString(null, provider);
}
