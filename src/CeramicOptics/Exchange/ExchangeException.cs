namespace CeramicOptics.Exchange;

/// <summary>A file could not be read; none of its data was used.</summary>
/// <remarks>The message starts with the file and the line, or the path of the JSON element.</remarks>
public sealed class ExchangeException : FormatException
{
    /// <summary>An error with its full message and its cause.</summary>
    /// <param name="message">Place and fault.</param>
    /// <param name="innerException">Cause; null where there is none.</param>
    public ExchangeException(string message, Exception? innerException = null)
        : base(message, innerException)
    {
    }

    internal static ExchangeException AtLine(string source, int line, string fault) =>
        new($"{source}, line {Guard.Text(line)}: {fault}");

    /// <summary>Runs a conversion and puts the place before the message of any argument error in it.</summary>
    internal static T Placed<T>(string place, Func<T> convert)
    {
        try
        {
            return convert();
        }
        catch (ArgumentException error)
        {
            throw new ExchangeException($"{place}: {FirstLineWithoutParameter(error)}", error);
        }
    }

    // ArgumentException adds " (Parameter 'x')", or a second line on older frameworks, which means nothing to a reader
    // of files.
    private static string FirstLineWithoutParameter(ArgumentException error)
    {
        string first = error.Message.Split('\r', '\n')[0];
        int suffix = first.IndexOf(" (Parameter '", StringComparison.Ordinal);
        return suffix < 0 ? first : first.Substring(0, suffix);
    }
}
