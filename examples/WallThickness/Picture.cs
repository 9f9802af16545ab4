using System.Globalization;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using SkiaSharp;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>The present wall, the suggested wall and the room it needs beyond the present one, each from three
/// sides.</summary>
internal static class Picture
{
    private const int Width = 1500, RowHeight = 410, Top = 100, Bottom = 200;
    private const float PixelsPerMm = 34, ScaleX = 1030, LegendX = 1190;

    public static void Save(string path, Mesh mesh, WallAnswers answers)
    {
        using Sheet sheet = new(Width, Top + (3 * RowHeight) + Bottom);
        ColorScale walls = ColorScale.OfThickness(
            answers.ThicknessesMm.Concat(answers.SuggestedMm),
            answers.SuggestedMm.Where(mm => !double.IsNaN(mm)).DefaultIfEmpty(1).Max());
        ColorScale room = ColorScale.FromZero(answers.RoomMm);
        sheet.Text("Wall of an invented crown over a dark stump", 40, 44, 24);
        Row(sheet, 0, "Present wall, mm", mesh, answers, answers.ThicknessesMm, walls);
        Row(sheet, 1, "Suggested wall, mm, for review", mesh, answers, answers.SuggestedMm, walls);
        Row(sheet, 2, "Room needed beyond the present wall, mm", mesh, answers, answers.RoomMm, room);

        float y = Top + (3 * RowHeight) + 36;
        sheet.Text("Views, from left to right: labial; palatal; incisal, labial side down.", 40, y, 15);
        y += 24;
        foreach (Caution caution in answers.Cautions.Where(caution => caution.Kind
            is CautionKind.StrengthNotAssessed or CautionKind.ToothReduction or CautionKind.EachPointAlone
            or CautionKind.WallBelowGoal or CautionKind.BelowStructuralMinimum))
        {
            y = sheet.Wrapped($"! {caution}", 40, y, Width - 80, 14);
        }

        sheet.Save(path);
    }

    private static void Row(
        Sheet sheet, int row, string title, Mesh mesh, WallAnswers answers, IReadOnlyList<double> values,
        ColorScale scale)
    {
        float top = Top + (row * RowHeight);
        sheet.Text(title, 40, top, 18);
        float foot = top + 30 + (float)(InventedCrown.HeightMm * PixelsPerMm);
        Placement[] places =
        [
            new(View.Labial, 260, foot, PixelsPerMm), new(View.Palatal, 570, foot, PixelsPerMm),
            new(View.Incisal, 870, top + 195, PixelsPerMm),
        ];
        foreach (Placement place in places)
        {
            sheet.Mesh(mesh, values, scale, place);
            sheet.Contour(mesh, point => answers.Zones[point] - 0.5, place, 1, hasHalo: false);
            sheet.Contour(mesh, point => answers.Zones[point] - 1.5, place, 1, hasHalo: false);
            if (row == 0)
            {
                sheet.Contour(mesh, point => answers.Above(point, zone => zone.Minimum.ByColorMm), place, 2, true);
                sheet.Contour(mesh, point => answers.Above(point, zone => zone.Minimum.ReliableMm), place, 2);
            }

            if (row == 1)
            {
                sheet.Contour(mesh, point => answers.MeetsGoal(point) ? 1 : -1, place, 2);
            }

            sheet.Text(place.View.Name, place.X, top + 378, 15, SKTextAlign.Center);
        }

        if (row == 0)
        {
            ZoneNames(sheet, answers, foot);
        }

        Func<double, float> at = sheet.Scale(scale, ScaleX, top + 20, 320);
        float y = row switch
        {
            0 => PresentLegend(sheet, answers, top, at),
            1 => SuggestedLegend(sheet, top),
            _ => sheet.Wrapped(
                "0: the present wall is thick enough, or must not be thicker this close to the margin.", LegendX,
                top + 34, 280),
        };
        sheet.Box(LegendX, y + 4, 26, 16, ColorScale.NoValue);
        sheet.Text("margin: no wall", LegendX + 36, y + 18);
    }

    // Rounded up, as the texts of the library are.
    private static string Mm(double mm) =>
        MinimumThickness.RoundedUp(mm).ToString("0.00", CultureInfo.InvariantCulture);

    private static float SuggestedLegend(Sheet sheet, float top)
    {
        float y = sheet.Wrapped(
            "The thinnest wall that is reliable and strong enough in every zone, and nowhere steeper than can be made.",
            LegendX, top + 34, 280);
        y += 8;
        sheet.Line(new SKPoint(LegendX, y), new SKPoint(LegendX + 28, y), 2);
        return sheet.Wrapped(
            "Below this line it tapers to the margin and misses the goal: the stump can show there.", LegendX + 38,
            y + 5, 250);
    }

    private static void ZoneNames(Sheet sheet, WallAnswers answers, float foot)
    {
        double[] heights = [0.15, 0.525, 0.87];
        for (int zone = 0; zone < heights.Length; zone++)
        {
            sheet.Text(
                answers.Requirements[zone].ZoneName, 40,
                foot - (float)(heights[zone] * InventedCrown.HeightMm * PixelsPerMm), 15);
        }
    }

    // Beside the scale: from where half of all pieces mask to where nearly all do, a bar for each zone.
    private static float PresentLegend(Sheet sheet, WallAnswers answers, float top, Func<double, float> at)
    {
        float x = ScaleX + 78;
        foreach (ThicknessRequirement zone in answers.Requirements)
        {
            if (zone.Minimum is { ByColorMm: double half, ReliableMm: double reliable })
            {
                sheet.Box(x, at(reliable), 8, at(half) - at(reliable), SKColors.White);
                sheet.Text(zone.ZoneName[..1], x + 4, at(reliable) - 6, 13, SKTextAlign.Center);
            }

            x += 16;
        }

        float y = top + 28;
        sheet.Line(new SKPoint(LegendX, y), new SKPoint(LegendX + 10, y), 2);
        sheet.Line(new SKPoint(LegendX + 18, y), new SKPoint(LegendX + 28, y), 2);
        y = sheet.Wrapped("thick enough by colour: half of all pieces mask", LegendX + 38, y + 5, 250);
        sheet.Line(new SKPoint(LegendX, y), new SKPoint(LegendX + 28, y), 2);
        y = sheet.Wrapped("reliable: 95 % of pieces mask", LegendX + 38, y + 5, 250);
        y = sheet.Wrapped(
            "Between the two lines it is uncertain whether a piece masks; bars beside the scale show this for each "
                + "zone:",
            LegendX, y + 12, 280);
        foreach (ThicknessRequirement zone in answers.Requirements)
        {
            if (zone.Minimum is { ByColorMm: double half, ReliableMm: double reliable })
            {
                y = sheet.Wrapped($"{zone.ZoneName}: {Mm(half)} to {Mm(reliable)} mm", LegendX, y + 4, 280);
            }
        }

        return y + 6;
    }
}
