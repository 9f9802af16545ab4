using System.Globalization;
using System.Resources;

namespace CeramicOptics;

/// <summary>A language for the text of answers: its words, and how it writes numbers.</summary>
/// <remarks>
/// <para>
/// Every answer is <see cref="IFormattable"/>. Given a culture, it speaks the language of that culture and writes
/// numbers by its conventions: <c>answer.ToString(new CultureInfo("de-DE"))</c> (in
/// <see cref="FormattableExtensions"/>) or <c>string.Create(culture, $"{answer}")</c>. Given a <see cref="Language"/>,
/// it does the same where a program has no culture data (invariant globalization).
/// </para>
/// <para>
/// Without a provider, and with a culture of another language, an answer is in English with a decimal point. The
/// culture of the thread is never used, so that text is the same on every machine.
/// </para>
/// <para>Names given by the caller are shown as they are, except those that the library knows, such as "cervical".
/// Messages of exceptions are English. Immutable and safe to share.</para>
/// </remarks>
public sealed class Language : IFormatProvider
{
    private readonly Func<string, string?> _words;
    private readonly NumberFormatInfo _numbers;
    private readonly WordFormat _format;

    internal Language(string name, Func<string, string?> words, NumberFormatInfo numbers)
    {
        (Name, _words, _numbers) = (name, words, numbers);
        _format = new WordFormat(this);
    }

    /// <summary>English, numbers with a decimal point.</summary>
    public static Language English { get; } = Of("en", "English", NumberFormatInfo.InvariantInfo);

    /// <summary>German, numbers with a decimal comma.</summary>
    public static Language German { get; } = Of("de", "German", NumberFormatInfo.ReadOnly(
        new NumberFormatInfo
        {
            NumberDecimalSeparator = ",", NumberGroupSeparator = ".", PercentDecimalSeparator = ",",
            PercentGroupSeparator = ".",
        }));

    /// <summary>Every language of the library.</summary>
    public static IReadOnlyList<Language> All { get; } = Guard.Copy([English, German]);

    /// <summary>Two letters by ISO 639, such as "de".</summary>
    public string Name { get; }

    /// <summary>A value in words, such as "inside the body" for a geometry or "core" for the role of a layer.</summary>
    /// <param name="value">A value of one of the library's enumerations that stand in answers.</param>
    /// <exception cref="ArgumentException">It has no words of its own.</exception>
    public string NameOf(Enum value) => _words($"{Guard.NotNull(value).GetType().Name}.{value}")
        ?? throw new ArgumentException($"{value.GetType().Name}.{value} has no name in words.", nameof(value));

    object? IFormatProvider.GetFormat(Type? formatType) =>
        formatType == typeof(NumberFormatInfo) ? _numbers : formatType == typeof(Language) ? this : null;

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The language of a provider; English where it has none of ours.</summary>
    internal static Language Of(IFormatProvider? provider)
    {
        if (provider is CultureInfo culture)
        {
            Language? spoken = All.FirstOrDefault(language => culture.Name == language.Name
                || culture.Name.StartsWith(language.Name + "-", StringComparison.OrdinalIgnoreCase));
            return spoken is null ? English : new Language(spoken.Name, spoken._words, culture.NumberFormat);
        }

        return provider?.GetFormat(typeof(Language)) as Language ?? English;
    }

    /// <summary>The words of a key with their values.</summary>
    /// <remarks>
    /// Beside the formats of numbers, words may ask for <c>{0:mm}</c> and <c>{0:mmm}</c>, thicknesses rounded up to
    /// 0.01 and 0.001 mm; <c>{0:margin}</c>, rounded down with its sign; <c>{0:chance}</c>, a probability rounded down;
    /// and <c>{0:name}</c>, a name, translated where it is one that the library knows. Numbers without a format are
    /// written in full, answers and enumerations in this language.
    /// </remarks>
    internal string Text(string key, params object?[] values) => string.Format(_format, _words(key) ?? key, values);

    /// <summary>A name, translated where it is one that the library knows, such as "cervical" or "air".</summary>
    internal string NameOf(string name) => _words("Name." + name) ?? name;

    /// <summary>Answers one after the other.</summary>
    internal string Join<T>(string separator, IEnumerable<T> items) =>
        string.Join(separator, items.Select(item => _format.Format(null, item, null)));

    private static Language Of(string name, string resource, NumberFormatInfo numbers)
    {
        ResourceManager words = new($"CeramicOptics.Words.{resource}", typeof(Language).Assembly);
        return new Language(name, key => words.GetString(key, CultureInfo.InvariantCulture), numbers);
    }

    private sealed class WordFormat(Language language) : IFormatProvider, ICustomFormatter
    {
        public object? GetFormat(Type? formatType) => formatType == typeof(ICustomFormatter) ? this : null;

        public string Format(string? format, object? arg, IFormatProvider? formatProvider) => arg switch
        {
            null => "",
            string name => format == "name" ? language.NameOf(name) : name,
            double value => Number(format, value),
            Enum value => language.NameOf(value),
            IFormattable value => value.ToString(format == "name" ? null : format, language),
            _ => Format(format, arg.ToString(), formatProvider),
        };

        private string Number(string? format, double value) => format switch
        {
            null => Guard.Text(value, language._numbers),
            "mm" => Number("0.00", Guard.RoundedUp(value)),
            "mmm" => Number("0.000", Guard.RoundedUp(value, 3)),
            "margin" => Number("+0.00;-0.00;0.00", -Guard.RoundedUp(-value)),
            "chance" => Number("0.000", Math.Max(0, -Guard.RoundedUp(-value, 3))),
            _ => Unsigned(value.ToString(format, language._numbers)),
        };

        // What rounds to zero has no sign; .NET Framework prints none.
        private string Unsigned(string text)
        {
            string sign = language._numbers.NegativeSign;
            return text.StartsWith(sign, StringComparison.Ordinal) && !text.Any(each => each is >= '1' and <= '9')
                ? text.Substring(sign.Length)
                : text;
        }
    }
}
