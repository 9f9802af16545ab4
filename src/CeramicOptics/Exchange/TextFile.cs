using System.Globalization;
using System.Text;

namespace CeramicOptics.Exchange;

/// <summary>Lines of a text file with a limit on its size, so that a wrong file cannot fill the memory.</summary>
internal static class TextFile
{
    public const int MaximumLength = 16 * 1024 * 1024;

    public static string[] Lines(TextReader reader, string source)
    {
        char[] buffer = new char[64 * 1024];
        StringBuilder text = new();
        for (int read; (read = reader.ReadBlock(buffer, 0, buffer.Length)) > 0;)
        {
            if (text.Length + read > MaximumLength)
            {
                throw new ExchangeException(
                    $"{source}: the file is longer than {Guard.Text(MaximumLength)} characters.");
            }

            text.Append(buffer, 0, read);
        }

        if (text.Length > 0 && text[0] == '\uFEFF')
        {
            text.Remove(0, 1);
        }

        return text.ToString().Replace("\r\n", "\n").Replace('\r', '\n').Split('\n');
    }

    /// <summary>The text of a file in UTF-8, in UTF-16 with its mark, or else in Latin-1.</summary>
    public static string Decoded(string path, string source, out bool isLatin)
    {
        FileInfo file = new(path);
        if (file.Exists && file.Length > 4L * MaximumLength)
        {
            throw new ExchangeException($"{source}: the file is longer than {Guard.Text(MaximumLength)} characters.");
        }

        byte[] bytes = File.ReadAllBytes(path);
        isLatin = false;
        try
        {
            using StreamReader reader = new(
                new MemoryStream(bytes), new UTF8Encoding(false, throwOnInvalidBytes: true));
            return reader.ReadToEnd();
        }
        catch (DecoderFallbackException)
        {
            isLatin = true;
            return Encoding.GetEncoding(28591).GetString(bytes);
        }
    }

    /// <summary>A finite number with decimal point, in every culture.</summary>
    public static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && Guard.IsFinite(value);
}
