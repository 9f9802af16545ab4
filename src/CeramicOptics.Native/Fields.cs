using System.Text;
using CeramicOptics.Layers;

namespace CeramicOptics.Native;

/// <summary>Checks what a caller in C gives, and says what is wrong by the names of the header.</summary>
internal static unsafe class Fields
{
    /// <summary>Makes a part; what the library says of it is said of the field.</summary>
    /// <remarks>A field that ends in '.', '_' or '->' is the beginning of one, which the library's own name
    /// completes.</remarks>
    public static T Of<T>(string field, Func<T> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException error) when (error is not FieldException)
        {
            throw new FieldException(InCsWords(field, error));
        }
    }

    /// <summary>An error by the name of a field, without names of .NET.</summary>
    public static string InCsWords(string field, ArgumentException error)
    {
        if (error is FieldException)
        {
            return error.Message;
        }

        string text = error.Message;
        int suffix = text.LastIndexOf(" (Parameter '", StringComparison.Ordinal);
        text = (suffix >= 0 ? text[..suffix] : text).Replace(
            "geometry " + nameof(MeasurementGeometry.DiffuseSpecularIncluded), "geometry di:8",
            StringComparison.Ordinal);
        int said = text.IndexOf(" must ", StringComparison.Ordinal);

        // "minMm must be in ..." becomes "case.min_mm must be in ..."; what has a space is a phrase, and stays.
        bool isPart = field[^1] is '.' or '_' or '>';
        return said > 0 && !text[..said].Contains(' ')
            ? (isPart ? field + Snake(text[..said]) : field) + text[said..]
            : $"{field.TrimEnd('.', '_')}: {text}";
    }

    private static string Snake(string name) => string.Concat(name.Select((letter, i) =>
        char.IsUpper(letter) ? (i == 0 ? "" : "_") + char.ToLowerInvariant(letter) : letter.ToString()));

    public static void Size(uint given, int known, string type)
    {
        if (given != known)
        {
            throw new FieldException(
                $"size of {type} must be sizeof({type}), here {known}, but is {given}; {type}_unset() sets it. Was "
                    + "the program compiled with the header of this library?");
        }
    }

    public static void Pointer(void* pointer, string field)
    {
        if (pointer == null)
        {
            throw new FieldException($"{field} must not be NULL.");
        }
    }

    public static void Unset(double value, string field, string why)
    {
        if (!double.IsNaN(value))
        {
            throw new FieldException($"{field} must be NaN, because {why}, but is {Text(value)}.");
        }
    }

    /// <summary>A number that a header constant stands for; 0 is never one.</summary>
    public static int Choice(int value, int last, string field, string constants) => value >= 1 && value <= last
        ? value
        : throw new FieldException(
            value == 0
                ? $"{field} is not stated; it must be {constants}."
                : $"{field} must be {constants} but is {Text(value)}.");

    public static int InRange(long value, int min, int max, string field) => value >= min && value <= max
        ? (int)value
        : throw new FieldException($"{field} must be in [{Text(min)}, {Text(max)}] but is {Text(value)}.");

    public static long Stride(long stride, long least, string field) => stride >= least
        ? stride
        : throw new FieldException(
            $"{field} must be at least {Text(least)} bytes, from one point to the next, but is {Text(stride)}.");

    public static string Name(byte* utf8, string field)
    {
        Pointer(utf8, field);
        int length = 0;
        while (utf8[length] != 0 && length < 1000)
        {
            length++;
        }

        string name = Encoding.UTF8.GetString(utf8, length);
        return string.IsNullOrWhiteSpace(name) ? throw new FieldException($"{field} must not be empty.") : name;
    }

    public static double[] Numbers(double* values, int count, string field)
    {
        Pointer(values, field);
        return new ReadOnlySpan<double>(values, count).ToArray();
    }

    public static string Text(double value) =>
        value.ToString("R", System.Globalization.CultureInfo.InvariantCulture);
}
