using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace CeramicOptics;

/// <summary>An input that cannot be used: which quantity, its value, and the range that it must have.</summary>
/// <remarks>
/// For programs with user input: values and text can be shown at a field of a form, and no message has to be parsed.
/// Every range that the library checks gives one. <see cref="Try"/> returns it instead of an exception;
/// <see cref="Of"/> reads it from an exception that was thrown. Created by the library only; immutable.
/// </remarks>
// The data of an exception must be serializable on .NET Framework.
[Serializable]
public sealed class InputProblem : IFormattable
{
    private const string Key = "CeramicOptics.InputProblem";

    internal InputProblem(
        InputProblemKind kind, string quantity, string? subject = null, double? value = null, string unit = "",
        double? minimum = null, double? maximum = null)
    {
        (Kind, Quantity, Subject, Value) = (kind, quantity, subject, value);
        (Unit, Minimum, Maximum) = (unit, minimum, maximum);
    }

    /// <summary>What is wrong.</summary>
    public InputProblemKind Kind { get; }

    /// <summary>
    /// The quantity: the name of the parameter, such as "thicknessMm", or a phrase such as "available thickness".
    /// </summary>
    public string Quantity { get; }

    /// <summary>Name of the zone or body that it belongs to; null where it belongs to none.</summary>
    public string? Subject { get; }

    /// <summary>The value given, in <see cref="Unit"/>; NaN where that was given, null for a colour.</summary>
    public double? Value { get; }

    /// <summary>Unit of value and range, such as "mm"; empty where there is none.</summary>
    public string Unit { get; }

    /// <summary>Smallest value allowed; null for a colour.</summary>
    public double? Minimum { get; }

    /// <summary>Largest value allowed; null for a colour.</summary>
    public double? Maximum { get; }

    /// <summary>The input problem that an exception of this library reports.</summary>
    /// <param name="error">The exception.</param>
    /// <returns>Null where it reports something else.</returns>
    public static InputProblem? Of(Exception error) => Guard.NotNull(error).Data[Key] as InputProblem;

    /// <summary>Makes something of a user's input, such as a target, a stump, a zone or a restoration.</summary>
    /// <param name="make">Makes it by the constructors and methods of this library.</param>
    /// <param name="made">What it made; null when false is returned.</param>
    /// <param name="problem">What is wrong with the input; null when true is returned.</param>
    /// <returns>False where the library refused a value. Other exceptions are not caught: they are errors of the
    /// program.</returns>
    public static bool Try<T>(
        Func<T> make, [NotNullWhen(true)] out T? made, [NotNullWhen(false)] out InputProblem? problem)
        where T : class
    {
        Guard.NotNull(make);
        try
        {
            (made, problem) = (make(), null);
            return true;
        }
        catch (ArgumentException error) when (Of(error) is not null)
        {
            (made, problem) = (null, Of(error)!);
            return false;
        }
    }

    /// <summary>For example "available thickness of 'cervical' must be 0.3 to 3 mm but is 12 mm".</summary>
    public override string ToString() => this.ToString(null);

    string IFormattable.ToString(string? format, IFormatProvider? provider)
    {
        Language language = Language.Of(provider);
        string quantity = Subject is null
            ? language.NameOf(Quantity)
            : language.Text("InputProblem.Subject", Quantity, Subject);
        string unit = Unit.Length == 0 ? "" : $" {language.NameOf(Unit)}";
        (double? value, double? minimum, double? maximum) = Shown();
        return language.Text($"InputProblem.{Kind}", quantity, value, unit, minimum, maximum);
    }

    // Six digits where they show that the value is outside the range.
    private (double? Value, double? Minimum, double? Maximum) Shown()
    {
        static double? Short(double? number) => number is not { } each ? null
            : double.Parse(each.ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        (double? value, double? minimum, double? maximum) = (Short(Value), Short(Minimum), Short(Maximum));
        return value >= minimum && value <= maximum ? (Value, Minimum, Maximum) : (value, minimum, maximum);
    }

    /// <summary>The exception for a problem.</summary>
    internal ArgumentOutOfRangeException ToException(string parameter, string message) =>
        new(parameter, message) { Data = { [Key] = this } };
}
