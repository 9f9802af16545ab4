using System.Globalization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using ScottPlot;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>
/// The picture: difference against thickness over the most demanding stump, and swatches of every zone.
/// </summary>
internal static class Picture
{
    private const string FontName = "DejaVu Sans";
    private const int Width = 1200, Height = 1240;
    private const double LargestDifference = 16;

    // Okabe and Ito's palette: told apart also with colour-deficient sight.
    private static readonly string[] FamilyColors = ["#0072B2", "#D55E00", "#009E73", "#CC79A7"];

    // The more opaque the grade, the heavier its line.
    private static readonly (LinePattern Pattern, float Width)[] GradeLines =
        [(LinePattern.Dotted, 2), (LinePattern.Dashed, 2), (LinePattern.Solid, 1.5f), (LinePattern.Solid, 4)];

    public static void Save(
        string path, CaseFile caseFile, MaterialCatalog catalog, RankedCement ranked)
    {
        Fonts.AddFontFile(FontName, Path.Combine(AppContext.BaseDirectory, "assets", "DejaVuSans.ttf"));
        Multiplot multiplot = new();
        multiplot.AddPlots(2);
        Plot curves = multiplot.GetPlot(0), swatches = multiplot.GetPlot(1);
        DrawCurves(curves, caseFile, catalog, ranked.Cement, ranked.Ranking);
        DrawSwatches(swatches, caseFile, ranked);
        multiplot.SavePng(path, Width, Height);
    }

    private static void DrawCurves(
        Plot plot, CaseFile caseFile, MaterialCatalog catalog, CementChoice cement, GradeRanking ranking)
    {
        Restoration restoration = caseFile.Masking(catalog.Ceramics[0], cement);
        ThicknessRange range = restoration.WallRange;
        Zone hardest = ranking.Assessments[0].Masking.Limiting.Zone;
        double[] thicknesses = [.. Generate.Range(range.MinMm, range.MaxMm, 0.01).Select(
            mm => Math.Min(mm, range.MaxMm))];
        string[] families = [.. catalog.Ceramics.Select(ceramic => ceramic.Family).Distinct()];
        foreach ((Ceramic ceramic, IReadOnlyList<LimitingCase> points) in Concurrently.Each(
            catalog.Ceramics, ceramic => (ceramic, MaskingThickness.FindCurve(
                restoration.WithCore(ceramic), hardest, thicknesses))))
        {
            var line = plot.Add.ScatterLine(thicknesses, [.. points.Select(point => point.Difference)]);
            line.Color = Color.FromHex(FamilyColors[Array.IndexOf(families, ceramic.Family) % FamilyColors.Length]);
            (line.LinePattern, line.LineWidth) = GradeLines[Math.Min(ceramic.Grade, GradeLines.Length) - 1];
            line.LegendText = ceramic.ToString();
        }

        var limit = plot.Add.HorizontalLine(caseFile.Criterion.Limit, 2, Colors.Black);
        limit.LegendText = caseFile.Criterion.ToString();
        var there = plot.Add.VerticalLine(hardest.AvailableMm, 1, Colors.Gray);
        there.LegendText = string.Create(CultureInfo.InvariantCulture, $"available, {hardest.AvailableMm:0.0} mm");
        plot.Axes.SetLimits(range.MinMm, range.MaxMm, 0, LargestDifference);
        plot.Title(
            $"Zone '{hardest.Name}' over {hardest.Stump}, {cement.Name} "
                + $"{(caseFile.IsInvented ? "(invented data)" : "")}", 17);
        plot.XLabel("thickness of the ceramic, mm");
        plot.YLabel("largest CIEDE2000 from the infinitely thick ceramic");
        plot.Axes.Bottom.SetTicks(
            [.. Generate.Range(0.4, range.MaxMm, 0.2)],
            [.. Generate.Range(0.4, range.MaxMm, 0.2).Select(mm => Number($"{mm:0.0}"))]);
        plot.Legend.SymbolWidth = 45;
        plot.ShowLegend(Alignment.UpperRight);
        plot.Font.Set(FontName);
    }

    private static void DrawSwatches(Plot plot, CaseFile caseFile, RankedCement ranked)
    {
        GradeRanking ranking = ranked.Ranking;
        IReadOnlyList<Zone> zones = ranking.Assessments[0].Masking.Restoration.Zones;
        int rows = ranking.Assessments.Count, columns = zones.Count + 1;
        for (int row = 0; row < rows; row++)
        {
            GradeAssessment assessment = ranking.Assessments[row];
            double top = rows - row;
            Write(
                plot, -0.05, top - 0.45,
                Number($"{row + 1}. {assessment.Ceramic}{(assessment.Masking.IsReliable ? " *" : "")}"),
                Alignment.MiddleRight);
            for (int column = 0; column < zones.Count; column++)
            {
                Swatch(plot, column, top, Colorimeter.D65TwoDegree.ToLab(ranked.SpectrumOf(row, column)));
                ZoneMasking at = assessment.Masking.Zones[column];
                Write(
                    plot, column + 0.46, top - 0.45,
                    Number($"{at.AtAvailable.Difference:0.0}{(at.IsReliable ? " masks" : "")}"),
                    Alignment.MiddleCenter);
            }

            Swatch(plot, columns - 1, top, caseFile.TargetColor);
        }

        for (int column = 0; column < columns; column++)
        {
            string heading = column < zones.Count
                ? Number($"{zones[column].Name}, {zones[column].AvailableMm:0.0} mm")
                : caseFile.TargetName;
            Write(plot, column + 0.46, rows + 0.18, heading, Alignment.MiddleCenter);
        }

        Write(
            plot, (columns - 1.6) / 2, rows + 0.62,
            "Predicted colour under D65 at the available thickness, and largest difference; * masks reliably in "
                + "every zone. Masking is not strength.", Alignment.MiddleCenter);
        plot.Axes.SetLimits(-1.6, columns, -0.1, rows + 0.9);
        plot.HideGrid();
        plot.Axes.Frameless();
        plot.Font.Set(FontName);
    }

    private static void Swatch(Plot plot, double left, double top, Lab color)
    {
        var rectangle = plot.Add.Rectangle(left, left + 0.92, top - 0.9, top);
        rectangle.FillColor = Color.FromHex(Srgb.FromXyz(color.ToXyz(Colorimeter.D65TwoDegree.White)).ToHex());
        rectangle.LineWidth = 0;
    }

    private static void Write(Plot plot, double x, double y, string text, Alignment alignment)
    {
        var label = plot.Add.Text(text, x, y);
        label.LabelAlignment = alignment;
        label.LabelFontSize = 15;
        label.LabelFontColor = Colors.Black;
        label.LabelFontName = FontName;
    }

    private static string Number(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
