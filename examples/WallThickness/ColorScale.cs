using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>Colours for the values of a range whose ends are whole steps, so that the ends and all ticks have short
/// numbers.</summary>
internal sealed class ColorScale
{
    /// <summary>Colour of points without a value.</summary>
    public static readonly SKColor NoValue = SKColor.Parse("#9A9A9A");

    // Each grows steadily lighter or darker, so that it is read alike with colour-deficient sight and in grey.
    private static readonly SKColor[] BlueToYellow = Colors("#2A1A6E", "#2F5D8C", "#1F918C", "#6CC25C", "#F5E626");
    private static readonly SKColor[] WhiteToBrown = Colors("#F7F3EC", "#F0B27A", "#C8631F", "#5A1A00");

    private readonly SKColor[] _stops;

    private ColorScale(SKColor[] stops, double low, double high)
    {
        double rough = Math.Max(high - low, 1e-6) / 6, power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        Step = power * (rough / power <= 1 ? 1 : rough / power <= 2 ? 2 : rough / power <= 5 ? 5 : 10);
        _stops = stops;
        Low = Step * Math.Floor((low / Step) + 1e-9);
        High = Step * Math.Max(Math.Ceiling((high / Step) - 1e-9), Math.Round(Low / Step) + 1);
    }

    public double Low { get; }

    public double High { get; }

    /// <summary>From one tick to the next.</summary>
    public double Step { get; }

    public IEnumerable<double> Ticks =>
        Enumerable.Range(0, (int)Math.Round((High - Low) / Step) + 1).Select(i => Low + (i * Step));

    /// <summary>Whether values above the upper end have its colour.</summary>
    public bool IsCut { get; private init; }

    /// <summary>For thicknesses: dark where thin.</summary>
    /// <param name="values">The thicknesses, mm.</param>
    /// <param name="enoughMm">Thicknesses far above this need not be told apart.</param>
    public static ColorScale OfThickness(IEnumerable<double> values, double enoughMm)
    {
        double[] known = [.. values.Where(value => !double.IsNaN(value))];
        ColorScale scale = new(BlueToYellow, known.Min(), Math.Min(known.Max(), 1.25 * enoughMm));
        return scale.High < known.Max() ? new ColorScale(BlueToYellow, scale.Low, scale.High) { IsCut = true } : scale;
    }

    /// <summary>For what is missing, or a difference: from 0, dark where much.</summary>
    public static ColorScale FromZero(IEnumerable<double> values) =>
        new(WhiteToBrown, 0, Math.Max(0.1, values.Where(value => !double.IsNaN(value)).DefaultIfEmpty(0).Max()));

    public SKColor ColorOf(double value)
    {
        if (double.IsNaN(value))
        {
            return NoValue;
        }

        double at = (_stops.Length - 1) * Math.Min(Math.Max((value - Low) / (High - Low), 0), 1);
        int left = Math.Min((int)at, _stops.Length - 2);
        byte Mix(byte one, byte two) => (byte)Math.Round(one + ((at - left) * (two - one)));
        return new SKColor(
            Mix(_stops[left].Red, _stops[left + 1].Red), Mix(_stops[left].Green, _stops[left + 1].Green),
            Mix(_stops[left].Blue, _stops[left + 1].Blue));
    }

    private static SKColor[] Colors(params string[] names) => [.. names.Select(SKColor.Parse)];
}
