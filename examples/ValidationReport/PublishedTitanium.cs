using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;
using MathNet.Numerics.LinearAlgebra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>
/// Zirconia cemented on titanium: what lies under it is found from the change of colour at 0.7 mm, the change at 1.0 mm
/// is predicted.
/// </summary>
internal static class PublishedTitanium
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 20);

    public static void Write(TextWriter report, PublishedFiles files)
    {
        report.WriteLine("\n## Zirconia cemented on titanium\n");
        report.WriteLine(
            "Measured changes of colour when a disc of zirconia (5 mol % yttria) is cemented on titanium, 4 finishes "
                + "and 2 cements "
                + "(`tests/reference/published/zirconia_on_titanium.csv`, with its source).\nThe constants of "
                + "the zirconia, what lay under the disc alone and the cements are not stated. Assumed: S = 3.5 /mm "
                + "and K = 0.02 /mm at 550 nm, falling as λ⁻¹ and λ⁻³, n 2.15,\ndry contact alone, on a backing as "
                + "the table says. Titanium and cement "
                + "together are one body of index 1.55; its reflectance at three wavelengths is found at 0.7 mm from\n"
                + "dL*, da*, db* and used at 1.0 mm. Error: CIELAB distance of predicted and measured change, 8 "
                + "pairs.\n");
        report.WriteLine(
            "| alone on, theory | left at 0.7 mm, mean | at 1.0 mm, mean | maximum | translucent cement, mean | "
                + "opaque cement, mean |");
        report.WriteLine("|---|---|---|---|---|---|");
        Cell[] cells = [.. files.Rows("zirconia_on_titanium.csv").Select(row => new Cell(
            row[0], row[1], double.Parse(row[2]),
            Vector<double>.Build.Dense([double.Parse(row[3]), double.Parse(row[4]), double.Parse(row[5])])))];
        foreach (double alone in (double[])[0.05, 0.3, 0.85])
        {
            Row(report, $"{alone}, radiative transfer", cells, Zirconia(TransportModel.Default), alone);
            Row(report, $"{alone}, two-flux theory", cells, Zirconia(TwoFluxModel.Instance), alone);
        }

        double[] same = [.. Pairs(cells).Select(pair => (pair.Thick.Change - pair.Thin.Change).L2Norm())];
        report.WriteLine($"| no prediction: as at 0.7 mm | 0 | {same.Average():0.0} | {same.Max():0.0} | "
            + $"{Mean(cells, same, "translucent"):0.0} | {Mean(cells, same, "opaque"):0.0} |");
        report.WriteLine(
            "\nOn average this is no better than taking the change at 0.7 mm: with the data published, this "
                + "case tests only signs and orders of magnitude. With opaque cement db* grows with thickness in "
                    + "all\nfour pairs, "
                + "which the assumed stack does not give.");
    }

    private static void Row(TextWriter report, string name, Cell[] cells, Material zirconia, double alone)
    {
        List<double> left = [], errors = [];
        foreach ((Cell thin, Cell thick) in Pairs(cells))
        {
            Vector<double> body = Fit(zirconia, alone, thin);
            left.Add((Change(zirconia, alone, thin.Mm, body) - thin.Change).L2Norm());
            errors.Add((Change(zirconia, alone, thick.Mm, body) - thick.Change).L2Norm());
        }

        report.WriteLine(
            $"| {name} | {left.Average():0.0} | {errors.Average():0.0} | {errors.Max():0.0} | "
                + $"{Mean(cells, errors, "translucent"):0.0} | {Mean(cells, errors, "opaque"):0.0} |");
    }

    private static double Mean(Cell[] cells, IEnumerable<double> errors, string cement) =>
        Pairs(cells).Zip(errors).Where(item => item.First.Thin.Cement == cement).Average(item => item.Second);

    private static IEnumerable<(Cell Thin, Cell Thick)> Pairs(Cell[] cells) =>
        cells.GroupBy(cell => (cell.Finish, cell.Cement))
            .Select(group => (group.MinBy(c => c.Mm)!, group.MaxBy(c => c.Mm)!));

    // Gauss-Newton with the body's reflectance kept between 0 and 0.98.
    private static Vector<double> Fit(Material zirconia, double alone, Cell thin)
    {
        Vector<double> body = Vector<double>.Build.Dense(3, 0.4);
        for (int iteration = 0; iteration < 40; iteration++)
        {
            Vector<double> now = Change(zirconia, alone, thin.Mm, body);
            Matrix<double> slopes = Matrix<double>.Build.DenseOfColumnVectors(Enumerable.Range(0, 3).Select(i =>
            {
                Vector<double> moved = body.Clone();
                moved[i] += 1e-4;
                return (Change(zirconia, alone, thin.Mm, moved) - now) / 1e-4;
            }));
            Matrix<double> normal = (slopes.Transpose() * slopes) + (1e-3 * Matrix<double>.Build.DenseIdentity(3));
            body += 0.7 * normal.Solve(slopes.Transpose() * (thin.Change - now));
            body.MapInplace(value => Math.Clamp(value, 0, 0.98));
        }

        return body;
    }

    private static Vector<double> Change(Material zirconia, double alone, double mm, Vector<double> body)
    {
        Layer disc = new(zirconia, mm);
        Lab before = Color(new LayerStack(
            [disc], Substrate.FromMeasuredReflectance("backing", ReflectanceSpectrum.Uniform(Grid, alone), 1.5,
                MeasurementGeometry.DiffuseSpecularIncluded),
            CouplingMedium.Air));
        Lab after = Color(new LayerStack(
            [disc], Substrate.FromInternalReflectance("cement on titanium", Between(body), 1.55)));
        return Vector<double>.Build.Dense([after.L - before.L, after.A - before.A, after.B - before.B]);
    }

    private static Lab Color(LayerStack stack) => Colorimeter.D65TwoDegree.ToLab(stack.Reflectance());

    // Straight lines through 450, 550 and 650 nm, level beyond.
    private static ReflectanceSpectrum Between(Vector<double> body) => new(
        Grid, [.. Enumerable.Range(0, Grid.Count).Select(i =>
        {
            double at = Math.Clamp((Grid[i] - 450) / 100, 0, 2);
            return at < 1 ? body[0] + (at * (body[1] - body[0])) : body[1] + ((at - 1) * (body[2] - body[1]));
        })]);

    private static Material Zirconia(IOpticalModel model)
    {
        double[] Falling(double at550, double power) =>
            [.. Enumerable.Range(0, Grid.Count).Select(i => at550 * Math.Pow(550 / Grid[i], power))];
        return new Material(
            "zirconia", model, new AbsorptionSpectrum(Grid, Falling(0.02, 3)),
            new ScatteringSpectrum(Grid, Falling(3.5, 1)), 2.15);
    }

    private sealed record Cell(string Finish, string Cement, double Mm, Vector<double> Change);
}
