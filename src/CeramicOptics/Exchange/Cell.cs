using System.Globalization;

namespace CeramicOptics.Exchange;

/// <summary>What a field of a table may be: a number, a wavelength, a unit, a word.</summary>
internal static class Cell
{
    private static readonly NumberFormatInfo WithComma = new() { NumberDecimalSeparator = "," };

    // Words before the number of a wavelength in a heading, without case, blanks and punctuation.
    private static readonly HashSet<string> WavelengthPrefixes =
        ["", "r", "nm", "wl", "refl", "reflectance", "spec", "spectral", "spectralnm", "specnm", "lambda", "λ", "w"];

    private static readonly HashSet<string> WavelengthWords =
        ["wavelength", "wavelengthnm", "wavelengthsnm", "nm", "wl", "wlnm", "lambda", "lambdanm", "λ", "λnm",
            "wellenlänge", "wellenlängenm", "nanometer", "nanometers", "nanometre", "wavelengths"];

    private static readonly HashSet<string> Units =
        ["", "nm", "%", "%r", "r%", "r", "1", "-", "–", "a.u.", "percent", "factor", "µm", "mm", "none", "unit"];

    private static readonly HashSet<string> OtherQuantities =
        ["abs", "absorbance", "absorbanceau", "extinction", "opticaldensity", "log1r", "kubelkamunk"];

    // In the order of preference.
    private static readonly string[] NameWords =
        ["samplename", "name", "sample", "samplelabel", "specimen", "label", "reading", "title", "description",
            "measurementname", "probe", "probenname", "bezeichnung", "sampleid", "id"];

    private static readonly HashSet<string> ReplicateWords =
        ["replicate", "rep", "repeat", "repetition", "run", "replicatenumber", "wiederholung"];

    /// <summary>A finite number, with or without a % sign behind it.</summary>
    public static bool TryNumber(string cell, DecimalMark mark, out double value)
    {
        string text = cell.Length > 0 && cell[cell.Length - 1] == '%' ? cell.Substring(0, cell.Length - 1) : cell;
        value = double.NaN;
        return text.Length > 0 && (char.IsDigit(text[0]) || text[0] is '-' or '+' or '.' or ',')
            && double.TryParse(
                text, NumberStyles.Float, mark == DecimalMark.Comma ? WithComma : CultureInfo.InvariantCulture,
                out value)
            && Guard.IsFinite(value) && text[text.Length - 1] != ',';
    }

    public static bool IsNumber(string cell, DecimalMark mark) => TryNumber(cell, mark, out _);

    /// <summary>True for what must have been meant as a number, whatever its decimal mark.</summary>
    public static bool LooksLikeNumber(string cell)
    {
        bool hasDigit = false;
        foreach (char c in cell)
        {
            hasDigit |= c is >= '0' and <= '9';
            if (!(c is (>= '0' and <= '9') or '.' or ',' or '-' or '+' or 'e' or 'E' or '%' or ' ' or '\''))
            {
                return false;
            }
        }

        return hasDigit;
    }

    /// <summary>A wavelength in nm from a field that holds only it, with or without its unit; else null.</summary>
    public static double? BareWavelength(string cell, DecimalMark mark)
    {
        string text = cell.EndsWith("nm", StringComparison.OrdinalIgnoreCase)
            ? cell.Substring(0, cell.Length - 2).TrimEnd()
            : cell;
        return TryNumber(text, mark, out double nm) && nm is >= 200 and <= 3000 && text[text.Length - 1] != '%'
            ? nm
            : null;
    }

    /// <summary>A wavelength from a heading, such as "400", "R400", "SPEC_400" or "400 nm"; else null.</summary>
    public static double? HeadingWavelength(string cell, DecimalMark mark)
    {
        int digit = 0;
        while (digit < cell.Length && !(cell[digit] is >= '0' and <= '9'))
        {
            digit++;
        }

        return digit < cell.Length && digit <= 16 && WavelengthPrefixes.Contains(Plain(cell.Substring(0, digit)))
            ? BareWavelength(cell.Substring(digit).TrimEnd(']', ')', ' '), mark)
            : null;
    }

    public static bool IsWavelengthWord(string cell) => WavelengthWords.Contains(Plain(cell));

    public static bool IsReplicateWord(string cell) => ReplicateWords.Contains(Plain(cell));

    /// <summary>How strongly a heading says that names stand under it: 0 is most; -1 is not at all.</summary>
    public static int NameRank(string cell) => Array.IndexOf(NameWords, Plain(cell));

    public static bool IsUnit(string cell) => Units.Contains(cell.Trim('[', ']', '(', ')', ' ').ToLowerInvariant());

    /// <summary>True for a heading or unit of absorbance or K/S, which no reader must take for reflectance.</summary>
    public static bool SaysNoReflectance(string cell) => OtherQuantities.Contains(Plain(cell))
        || string.Equals(cell, "K/S", StringComparison.OrdinalIgnoreCase);

    public static bool SaysPercent(string cell) => cell.AsSpan().IndexOf('%') >= 0
        || cell.AsSpan().IndexOf("percent".AsSpan(), StringComparison.OrdinalIgnoreCase) >= 0;

    private static string Plain(string text) => text.Length > 40
        ? text
        : new([.. text.Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant)]);
}
