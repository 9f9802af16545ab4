using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Spectra;
using ScottPlot;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Chart of the share of light that a window loses, by its radius and by the translucency of the disc: 1 mm over a
/// white tile in glycerine, spot and window equal.
/// </summary>
internal static class WindowLossChart
{
    private const string FontName = "DejaVu Sans";
    private const double Mm = 1, AbsorptionPerMm = 0.03, Anisotropy = 0.5, SmallestMm = 0.5, LargestMm = 10;
    private const int Points = 17;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);

    private static readonly double[] ReducedPerMm = [1, 1.5, 2, 3, 4, 6, 8, 11, 16];

    private static readonly Substrate Tile = Substrate.FromInternalReflectance(
        "tile", ReflectanceSpectrum.Uniform(Grid, 0.9), 1.5);

    public static void Save(string path)
    {
        Fonts.AddFontFile(FontName, Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));
        Multiplot multiplot = new();
        multiplot.AddPlots(2);
        multiplot.Layout = new ScottPlot.MultiplotLayouts.Columns();
        DrawByRadius(multiplot.GetPlot(0));
        DrawByTranslucency(multiplot.GetPlot(1));
        multiplot.SavePng(path, 1400, 620);
    }

    private static void DrawByRadius(Plot plot)
    {
        double[] shown = [1, 2, 4, 8, 16];
        foreach (double reduced in shown)
        {
            Material material = Of(reduced, 1.53);
            double[] radii = [.. Enumerable.Range(0, Points).Select(
                i => SmallestMm * Math.Pow(LargestMm / SmallestMm, i / (Points - 1.0)))];
            Add(
                plot, [.. radii.Select(Math.Log10)], [.. radii.Select(mm => LossPercent(material, mm))],
                $"{reduced} per mm", LinePattern.Solid, Array.IndexOf(shown, reduced));
        }

        double[] ticks = [0.5, 1, 2, 3, 5, 10];
        plot.Axes.Bottom.SetTicks([.. ticks.Select(Math.Log10)], [.. ticks.Select(mm => $"{mm}")]);
        Finish(
            plot, "by the window, for glass-ceramics by reduced scattering", "radius of spot and window, mm",
            Alignment.UpperRight);
        plot.Axes.SetLimits(Math.Log10(SmallestMm), Math.Log10(LargestMm), 0, 90);
    }

    private static void DrawByTranslucency(Plot plot)
    {
        foreach ((string name, double index, LinePattern pattern) in ((string, double, LinePattern)[])
            [("glass-ceramic", 1.53, LinePattern.Solid), ("zirconia", 2.15, LinePattern.Dashed)])
        {
            double[] radii = [1, 2, 3, 5];
            foreach (double mm in radii)
            {
                Material[] materials = [.. ReducedPerMm.Select(reduced => Of(reduced, index))];
                Add(
                    plot, [.. materials.Select(TranslucencyOf)], [.. materials.Select(own => LossPercent(own, mm))],
                    $"{mm} mm, {name}", pattern, Array.IndexOf(radii, mm));
            }
        }

        Finish(
            plot, "by the ceramic, for four radii of spot and window", "translucency TP00 of 1 mm",
            Alignment.UpperLeft);
        plot.Axes.SetLimitsY(0, 100);
    }

    private static void Add(Plot plot, double[] x, double[] y, string name, LinePattern pattern, int color)
    {
        var line = plot.Add.Scatter(x, y);
        (line.LegendText, line.LinePattern, line.LineWidth, line.MarkerSize) = (name, pattern, 2, 0);
        line.Color = plot.Add.Palette.GetColor(color);
    }

    private static void Finish(Plot plot, string title, string x, Alignment legend)
    {
        plot.ShowLegend(legend);
        plot.XLabel(x);
        plot.YLabel("light lost, % of the reading of a large area");
        plot.Title(title, 17);
        plot.Font.Set(FontName);
    }

    private static double LossPercent(Material material, double radiusMm)
    {
        LayerStack stack = Over(material, Tile);
        double read = stack.Reflectance(
            MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Circular(radiusMm, radiusMm))[0];
        return 100 * (1 - (read / stack.Reflectance(MeasurementGeometry.DiffuseSpecularIncluded)[0]));
    }

    private static double TranslucencyOf(Material material)
    {
        Lab ColorOver(Substrate substrate) => Colorimeter.D65TwoDegree.ToLab(Over(material, substrate).Reflectance());
        return Translucency.Parameter00(ColorOver(Substrate.Black), ColorOver(Substrate.White));
    }

    private static LayerStack Over(Material material, Substrate substrate) =>
        new([new Layer(material, Mm)], substrate, CouplingMedium.Glycerine);

    private static Material Of(double reducedPerMm, double index) => new(
        "invented", new TransportModel(anisotropy: Anisotropy),
        AbsorptionSpectrum.Uniform(Grid, 2 * AbsorptionPerMm),
        ScatteringSpectrum.Uniform(Grid, ((3 * reducedPerMm) - AbsorptionPerMm) / 4), index);
}
