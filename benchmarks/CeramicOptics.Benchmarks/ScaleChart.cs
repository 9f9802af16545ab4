using System.Globalization;
using System.Text;

namespace CeramicOptics.Benchmarks;

/// <summary>Two lines over the number of wavelengths, both axes logarithmic, as SVG.</summary>
internal sealed class ScaleChart
{
    private const double Left = 70, Right = 600, Top = 20, Bottom = 320;
    private const double LeastWavelengths = 10, MostWavelengths = 400, LeastNs = 10, MostNs = 1e8;

    private readonly List<(double Wavelengths, double CompileNs, double WallNs)> _points = [];

    public void Add(double wavelengths, double compileNs, double wallNs) =>
        _points.Add((wavelengths, compileNs, wallNs));

    public string Draw()
    {
        StringBuilder svg = new();
        svg.Append("<svg xmlns='http://www.w3.org/2000/svg' width='720' height='380' viewBox='0 0 720 380' "
            + "font-family='sans-serif' font-size='13' fill='#222'>\n");
        svg.Append("<rect width='720' height='380' fill='#fff'/>\n");
        string[] units = ["10 ns", "100 ns", "1 µs", "10 µs", "100 µs", "1 ms", "10 ms", "100 ms"];
        for (int i = 0; i < units.Length; i++)
        {
            double y = Y(LeastNs * Math.Pow(10, i));
            svg.Append(Text($"<line x1='{Left}' y1='{y:F1}' x2='{Right}' y2='{y:F1}' stroke='#ddd'/>\n"));
            svg.Append(Text($"<text x='{Left - 8}' y='{y + 4:F1}' text-anchor='end'>{units[i]}</text>\n"));
        }

        foreach ((double wavelengths, _, _) in _points)
        {
            double x = X(wavelengths);
            svg.Append(Text($"<line x1='{x:F1}' y1='{Bottom}' x2='{x:F1}' y2='{Bottom + 5}' stroke='#222'/>\n"));
            svg.Append(Text($"<text x='{x:F1}' y='{Bottom + 20}' text-anchor='middle'>{wavelengths}</text>\n"));
        }

        svg.Append(Text($"<line x1='{Left}' y1='{Bottom}' x2='{Right}' y2='{Bottom}' stroke='#222'/>\n"));
        svg.Append(Text($"<text x='{(Left + Right) / 2}' y='{Bottom + 44}' text-anchor='middle'>wavelengths</text>\n"));
        Line(svg, "#b03a2e", "compile", point => point.CompileNs);
        Line(svg, "#1f618d", "one wall of many", point => point.WallNs);
        return svg.Append("</svg>\n").ToString();
    }

    private static double X(double wavelengths) =>
        Left + ((Right - Left)
            * Math.Log(wavelengths / LeastWavelengths) / Math.Log(MostWavelengths / LeastWavelengths));

    private static double Y(double ns) => Bottom - ((Bottom - Top)
        * Math.Log(ns / LeastNs) / Math.Log(MostNs / LeastNs));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private void Line(
        StringBuilder svg, string color, string label,
        Func<(double Wavelengths, double CompileNs, double WallNs), double> of)
    {
        string path = string.Join(" ", _points.Select(point => Text($"{X(point.Wavelengths):F1},{Y(of(point)):F1}")));
        svg.Append(Text($"<polyline points='{path}' fill='none' stroke='{color}' stroke-width='2'/>\n"));
        foreach ((double Wavelengths, double CompileNs, double WallNs) point in _points)
        {
            svg.Append(Text(
                $"<circle cx='{X(point.Wavelengths):F1}' cy='{Y(of(point)):F1}' r='3.5' fill='{color}'/>\n"));
        }

        (double Wavelengths, double CompileNs, double WallNs) last = _points[^1];
        svg.Append(Text(
            $"<text x='{X(last.Wavelengths) + 10:F1}' y='{Y(of(last)) + 4:F1}' fill='{color}'>{label}</text>\n"));
    }
}
