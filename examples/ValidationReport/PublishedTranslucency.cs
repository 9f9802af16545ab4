using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Spectra;

namespace CeramicOptics.Examples.ValidationReport;

/// <summary>Translucency against thickness: S from the thinnest disc of a study, its other discs predicted.</summary>
internal static class PublishedTranslucency
{
    private const double White = 0.9, Black = 0.05, Share = 0.01;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(500, 600, 100);

    public static void Write(TextWriter report, PublishedFiles files)
    {
        report.WriteLine("\n## Translucency against thickness\n");
        report.WriteLine(
            "Means from abstracts (`tests/reference/published/translucency_by_thickness.csv`): TP is the CIELAB "
                + "difference over white and over black, CR the contrast\nratio. Backings, contact and window are "
                + "mostly not stated, so the same is assumed for all: a grey ceramic of K = 0.01 S, dry contact on "
                + "tiles of 0.9 and 0.05, no light\nlost sideways. S is found from the thinnest disc. "
                + "The table shows a trend and claims no accuracy. Two series (TP and CR at 0.5 and 2 mm, two "
                    + "predictions)\n"
                + "of a study of machinable lithium disilicate whose authors and year are not known are left out; "
                + "with them, means are lower by 0.01 to 0.05.\n");
        string[][] rows = [.. files.Rows("translucency_by_thickness.csv", ';')];
        report.WriteLine("| study | mm | measured | radiative transfer | two-flux theory |\n|---|---|---|---|---|");
        foreach (IGrouping<string, string[]> series in rows.GroupBy(row => row[0]))
        {
            Func<double, double> transfer = Fit(TransportModel.Default, series.First(), Share);
            Func<double, double> twoFlux = Fit(TwoFluxModel.Instance, series.First(), Share);
            foreach (string[] row in series)
            {
                double mm = double.Parse(row[3]);
                string value = $"{row[4]} {row[5]}{(row[6].Length > 0 ? $" (sd {row[6]})" : "")}";
                string format = row[4] == "TP" ? "0.0" : "0.00";
                report.WriteLine(row == series.First()
                    ? $"| {row[0]} [{row[2]}] | {mm} | {value} | fitted | fitted |"
                    : $"| | {mm} | {value} | {transfer(mm).ToString(format)} | {twoFlux(mm).ToString(format)} |");
            }
        }

        report.WriteLine(
            "\n| error as a share of the measured value | predictions | mean | 95th percentile | maximum |");
        report.WriteLine("|---|---|---|---|---|");
        foreach (double share in (double[])[0.003, Share, 0.03])
        {
            report.WriteLine(Differences.Row(
                $"radiative transfer, K = {share} S", Errors(rows, TransportModel.Default, share)));
            report.WriteLine(Differences.Row(
                $"two-flux theory, K = {share} S", Errors(rows, TwoFluxModel.Instance, share)));
        }
    }

    private static List<double> Errors(string[][] rows, IOpticalModel model, double share) =>
        [.. rows.GroupBy(row => row[0]).SelectMany(series =>
        {
            Func<double, double> predicted = Fit(model, series.First(), share);
            return series.Skip(1).Select(row => Math.Abs((predicted(double.Parse(row[3])) / double.Parse(row[5])) - 1));
        })];

    // The quantity by thickness, with S such that the first disc has its measured value.
    private static Func<double, double> Fit(IOpticalModel model, string[] first, double share)
    {
        double index = first[1] == "zirconia" ? 2.15 : 1.54;
        double mm = double.Parse(first[3]), measured = double.Parse(first[5]);
        bool isContrast = first[4] == "CR";
        double low = 0.05, high = 100;
        for (int i = 0; i < 60; i++)
        {
            double middle = Math.Sqrt(low * high);
            bool isTooClear = isContrast == Value(model, index, share, middle, mm, isContrast) < measured;
            (low, high) = isTooClear ? (middle, high) : (low, middle);
        }

        return thickness => Value(model, index, share, low, thickness, isContrast);
    }

    private static double Value(
        IOpticalModel model, double index, double share, double s, double mm, bool isContrast)
    {
        Material ceramic = new(
            "ceramic", model, AbsorptionSpectrum.Uniform(Grid, share * s), ScatteringSpectrum.Uniform(Grid, s),
            index);
        double Over(double tile) => new LayerStack(
            [new Layer(ceramic, mm)],
            Substrate.FromMeasuredReflectance("tile", ReflectanceSpectrum.Uniform(Grid, tile), 1.5,
                MeasurementGeometry.DiffuseSpecularIncluded),
            CouplingMedium.Air).Reflectance()[0];
        double Lightness(double y) => Lab.FromXyz(new Xyz(100 * y, 100 * y, 100 * y), new Xyz(100, 100, 100)).L;
        return isContrast ? Over(Black) / Over(White) : Lightness(Over(White)) - Lightness(Over(Black));
    }
}
