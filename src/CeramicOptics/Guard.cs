using System.Globalization;
using System.Runtime.CompilerServices;

namespace CeramicOptics;

/// <summary>
/// The one place where arguments are checked, so that every error names quantity, value, unit and range.
/// </summary>
internal static class Guard
{
    /// <summary>Returns <paramref name="value"/> if it lies in [min, max]; NaN never does.</summary>
    public static double InRange(
        double value, double min, double max, string unit, [CallerArgumentExpression(nameof(value))] string name = "",
        string? ofZone = null)
    {
        if (!(value >= min && value <= max))
        {
            string what = ofZone is null ? name : $"{name} of zone '{ofZone}'";
            throw new InputProblem(InputProblemKind.OutOfRange, name, ofZone, value, unit, min, max).ToException(
                what, $"{what} must be in [{Text(min)}, {Text(max)}]{Unit(unit)} but is {Text(value)}{Unit(unit)}.");
        }

        return value;
    }

    public static int InRange(int value, int min, int max, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (value < min || value > max)
        {
            throw new InputProblem(InputProblemKind.OutOfRange, name, null, value, "", min, max).ToException(
                name, $"{name} must be in [{Text(min)}, {Text(max)}] but is {Text(value)}.");
        }

        return value;
    }

    public static T NotNull<T>(T? value, [CallerArgumentExpression(nameof(value))] string name = "")
        where T : class => value ?? throw new ArgumentNullException(name);

    public static string NotBlank(string? value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        string.IsNullOrWhiteSpace(value) ? throw new ArgumentException($"{name} must not be empty.", name) : value!;

    public static T Defined<T>(T value, [CallerArgumentExpression(nameof(value))] string name = "")
        where T : struct, Enum
    {
#if NET
        bool defined = Enum.IsDefined(value);
#else
        bool defined = Enum.IsDefined(typeof(T), value);
#endif
        return defined
            ? value
            : throw new ArgumentOutOfRangeException(name, $"{name} is not a value of {typeof(T).Name}: {value}.");
    }

    /// <summary>A private copy, so that the caller's later changes cannot reach an immutable object.</summary>
    public static IReadOnlyList<T> Copy<T>(
        IEnumerable<T>? items, int minimumCount = 0, [CallerArgumentExpression(nameof(items))] string name = "",
        int maximumCount = int.MaxValue)
    {
        T[] copy = [.. items ?? throw new ArgumentNullException(name)];
        if (copy.Length < minimumCount)
        {
            throw new ArgumentException(
                $"{name} must hold at least {Text(minimumCount)} item(s) but holds {Text(copy.Length)}.", name);
        }

        if (copy.Length > maximumCount)
        {
            throw new ArgumentException(
                $"{name} must hold at most {Text(maximumCount)} items but holds {Text(copy.Length)}.", name);
        }

        if (Array.Exists(copy, item => item is null))
        {
            throw new ArgumentException($"{name} must not hold null.", name);
        }

        return new ValueList<T>(copy);
    }

    /// <summary>Items that answers tell apart by a text, such as their name.</summary>
    public static IReadOnlyList<T> EachOnce<T>(IReadOnlyList<T> items, Func<T, string> text, string name)
    {
        Dictionary<string, int> known = new(StringComparer.Ordinal);
        for (int i = 0; i < items.Count; i++)
        {
            string each = text(items[i]);
            if (known.TryGetValue(each, out int first))
            {
                throw new ArgumentException(
                    $"{name}[{Text(first)}] and {name}[{Text(i)}] are both '{each}'; answers could not tell them "
                        + "apart.", name);
            }

            known.Add(each, i);
        }

        return items;
    }

    /// <summary>Batch forms take and give equally many items.</summary>
    public static void SameLength(int given, int destination, string givenName)
    {
        if (given != destination)
        {
            throw new ArgumentException(
                $"{givenName} ({Text(given)}) and destination ({Text(destination)}) must be equally long.");
        }
    }

    /// <summary>
    /// The smallest number with so many decimals that is not below a value, rounding errors aside: how least
    /// thicknesses are shown.
    /// </summary>
    public static double RoundedUp(double value, int digits = 2)
    {
        double nearest = Math.Round(value, digits);
        return nearest >= value - 1e-9 ? nearest : Math.Round(nearest + Math.Pow(10, -digits), digits);
    }

    public static bool IsFinite(double value) => !double.IsNaN(value) && !double.IsInfinity(value);

    /// <summary>Shortest text that reads back as the same number, with a decimal point.</summary>
    public static string Text(double value) => Text(value, CultureInfo.InvariantCulture);

    /// <summary>The same by the conventions of a culture.</summary>
    public static string Text(double value, IFormatProvider provider)
    {
        string text = value.ToString("R", provider);
#if !NET
        // "R" of .NET Framework does not always read back.
        text = double.Parse(text, provider) == value || double.IsNaN(value)
            ? text
            : value.ToString("G17", provider);
#endif
        return text;
    }

    public static string Text(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static string Unit(string unit) => unit.Length == 0 ? "" : " " + unit;
}
