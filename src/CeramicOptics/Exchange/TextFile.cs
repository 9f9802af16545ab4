using System.Globalization;

namespace CeramicOptics.Exchange;

/// <summary>Lines of a text file with a limit on its size, so that a wrong file cannot fill the memory.</summary>
internal static class TextFile
{
    public const int MaximumLength = 16 * 1024 * 1024;

    public static string[] Lines(TextReader reader, string source)
    {
        char[] buffer = new char[64 * 1024];
        System.Text.StringBuilder text = new();
        for (int read; (read = reader.ReadBlock(buffer, 0, buffer.Length)) > 0;)
        {
            if (text.Length + read > MaximumLength)
            {
                throw new ExchangeException(
                    $"{source}: the file is longer than {Guard.Text(MaximumLength)} characters.");
            }

            text.Append(buffer, 0, read);
        }

        return text.ToString().Replace("\r\n", "\n").Replace('\r', '\n').Split('\n');
    }

    /// <summary>A finite number with decimal point, in every culture.</summary>
    public static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && Guard.IsFinite(value);
}
