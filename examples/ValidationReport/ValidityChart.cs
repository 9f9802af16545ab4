using CeramicOptics.Characterization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;
using ScottPlot;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Chart of two-flux departure by thickness and scattering, for a glass-ceramic over a nearly black stump.
/// </summary>
internal static class ValidityChart
{
    private const string FontName = "DejaVu Sans";
    private const double MinMm = 0.1, MaxMm = 2.0, MinS = 0.7, MaxS = 14, Largest = 6;
    private const int Columns = 39, Rows = 27;

    private static readonly Substrate Stump = Substrate.FromInternalReflectance(
        "stump", ReflectanceSpectrum.Uniform(SimulatedInstrument.Grid, 0.02), 1.54);

    public static void Save(string path)
    {
        Fonts.AddFontFile(FontName, Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));
        Multiplot multiplot = new();
        multiplot.AddPlots(2);
        multiplot.Layout = new ScottPlot.MultiplotLayouts.Columns();
        Draw(multiplot.GetPlot(0), "same constants in both models", asLaboratory: false);
        Draw(multiplot.GetPlot(1), "constants as characterized by two-flux theory", asLaboratory: true);
        multiplot.SavePng(path, 1400, 620);
    }

    private static void Draw(Plot plot, string title, bool asLaboratory)
    {
        double[,] values = new double[Rows, Columns];
        Coordinates3d[,] points = new Coordinates3d[Rows, Columns];
        List<Tick> ticks = [];
        for (int row = 0; row < Rows; row++)
        {
            double logS = Math.Log(MinS) + (Math.Log(MaxS / MinS) * row / (Rows - 1));
            Material truth = SimulatedInstrument.Ceramic("ceramic", 1.53, Math.Exp(logS), TransportModel.Default);
            Material used = asLaboratory
                ? AsCharacterized(truth, SimulatedInstrument.DiscMmFor(Math.Exp(logS)))
                : SimulatedInstrument.Ceramic("ceramic", 1.53, Math.Exp(logS), TwoFluxModel.Instance);
            for (int column = 0; column < Columns; column++)
            {
                double mm = MinMm + ((MaxMm - MinMm) * column / (Columns - 1));
                double departure = ColorDifference.Ciede2000(
                    ColorOf(Stack(truth, mm).Reflectance()), ColorOf(Stack(used, mm).Reflectance()));
                values[Rows - 1 - row, column] = Math.Min(departure, Largest);
                points[row, column] = new Coordinates3d(mm, logS, departure);
            }
        }

        foreach (double s in (double[])[0.7, 1, 2, 4, 8, 14])
        {
            ticks.Add(
                new Tick(Math.Log(s),
                $"{s} ({TranslucencyOf(SimulatedInstrument.Ceramic("ceramic", 1.53, s, TransportModel.Default)):0})"));
        }

        var map = plot.Add.Heatmap(values);
        map.Extent = new CoordinateRect(MinMm, MaxMm, Math.Log(MinS), Math.Log(MaxS));
        map.Colormap = new ScottPlot.Colormaps.Viridis().Reversed();
        map.ManualRange = new ScottPlot.Range(0, Largest);
        var contours = plot.Add.ContourLines(points);
        contours.ContourLineLevels = [ColorCriterion.PerceptibilityThreshold.Limit,
            ColorCriterion.AcceptabilityThreshold.Limit];
        contours.Update(points);
        contours.LineWidth = 2;
        contours.LineColor = Colors.Black;
        contours.LabelStyle.FontName = FontName;
        contours.LabelStyle.FontSize = 15;
        var bar = plot.Add.ColorBar(map);
        bar.Label = "CIEDE2000 to radiative transfer";
        bar.LabelStyle.FontName = FontName;
        bar.LabelStyle.Bold = false;
        bar.LabelStyle.FontSize = 15;
        plot.Axes.Left.SetTicks([.. ticks.Select(tick => tick.Position)], [.. ticks.Select(tick => tick.Label)]);
        plot.Axes.SetLimits(MinMm, MaxMm, Math.Log(MinS), Math.Log(MaxS));
        plot.XLabel("thickness, mm");
        plot.YLabel("S at 550 nm, 1/mm (TP00 at 1 mm)");
        plot.Title(title, 17);
        plot.Font.Set(FontName);
    }

    private static LayerStack Stack(Material material, double mm) => new([new Layer(material, mm)], Stump);

    private static Lab ColorOf(ReflectanceSpectrum spectrum) => Colorimeter.D65TwoDegree.ToLab(spectrum);

    private static double TranslucencyOf(Material material)
    {
        LayerStack disc = new([new Layer(material, 1)], Substrate.Black);
        return Translucency.Parameter00(
            ColorOf(disc.Reflectance()), ColorOf(disc.WithSubstrate(Substrate.White).Reflectance()));
    }

    private static Material AsCharacterized(Material truth, double discMm)
    {
        DiscReading Read(string name, Backing backing) => DiscReading.Reflectance(
            name, discMm, new LayerStack([new Layer(truth, discMm)], backing.Substrate, backing.Coupling).Reflectance(),
            backing, MeasurementGeometry.DiffuseSpecularIncluded, ReadingArea.Large, standardUncertainty: 1e-7);
        DiscSet discs = new(
            "disc", truth.RefractiveIndex,
            [Read("black", SimulatedInstrument.Black), Read("white", SimulatedInstrument.White)]);
        return DiscCharacterization.Find(discs, new CharacterizationOptions { Model = TwoFluxModel.Instance })
            .ToMaterial();
    }
}
