using CeramicOptics.Characterization;
using CeramicOptics.Decisions.Staining;
using CeramicOptics.Layers.TwoFlux;
using static CeramicOptics.Tests.Repository;

namespace CeramicOptics.Tests.Reference;

/// <summary>Measured oil paints: tests/reference/paints.csv (Geldof et al. 2018, CC0).</summary>
public class PaintReferenceTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 10);

    private static readonly Dictionary<(string Paint, string Role), ReflectanceSpectrum> Readings = Read();

    public static TheoryData<string> Translucent =>
        [.. Readings.Keys.Select(key => key.Paint).Distinct().Where(paint => Enumerable.Range(0, Grid.Count)
            .Average(i => Readings[(paint, "over_white")][i] - Readings[(paint, "over_black")][i]) > 0.01)];

    /// <summary>Finite, non-negative constants or a finding, at every wavelength of every paint that lets light
    /// through.</summary>
    [Theory]
    [MemberData(nameof(Translucent))]
    public void Every_translucent_paint_gives_constants_or_a_finding(string paint)
    {
        foreach (MeasurementGeometry geometry in (MeasurementGeometry[])[
            MeasurementGeometry.DiffuseSpecularExcluded, MeasurementGeometry.DiffuseSpecularIncluded])
        {
            CharacterizationResult result = DiscCharacterization.Find(
                Layer(paint, geometry), new CharacterizationOptions { Model = TwoFluxModel.Instance });
            double[] known = [.. Enumerable.Range(0, Grid.Count).Select(i => Grid[i]).Where(
                nm => !result.Findings.Any(finding => finding.WavelengthNm == nm && !finding.IsDetermined))];
            Assert.Equal(Grid.Count, known.Length + result.Findings.Count(finding => !finding.IsDetermined));
            foreach (int i in Enumerable.Range(0, Math.Max(0, known.Length - 1))
                .Where(i => known[i + 1] - known[i] <= 100))
            {
                Material material = result.ToMaterial(WavelengthGrid.FromWavelengths([known[i], known[i + 1]]));
                for (int j = 0; j < 2; j++)
                {
                    Assert.InRange(material.Absorption[j], 0, 1e3);
                    Assert.InRange(material.Scattering[j], 0, 1e3);
                    Assert.True(material.Absorption[j] + material.Scattering[j] > 0);
                }
            }
        }
    }

    /// <summary>
    /// Pigment, carrier and the mixture predicted from them equal those of scipy with the layer as a matrix exponential
    /// (tests/reference/paints.py). Tolerances: nine printed digits, fits ended at relative steps of 1e-8; K and S are
    /// compared where the readings determine them.
    /// </summary>
    [Fact]
    public void Fits_of_three_layers_equal_those_of_another_program()
    {
        int compared = 0;
        foreach (IGrouping<string, string[]> rows in ReferenceRows("paints_fit.csv").GroupBy(cells => cells[1]))
        {
            string[] first = rows.First();
            (double share, double other) = (Number(first[4]), Number(first[5]));
            PigmentResult result = PigmentCharacterization.Find(
                rows.Key,
                [
                    new Drawdown(0, Layer(first[0])),
                    new Drawdown(1, Layer(first[1])) { CarrierShare = 0 },
                    new Drawdown(share, Layer(first[2])) { CarrierShare = 1 - share },
                ],
                options: new CharacterizationOptions { Model = TwoFluxModel.Instance });
            Material mixed = new(
                "mixture", TwoFluxModel.Instance,
                new AbsorptionSpectrum(
                    Grid, [.. result.Points.Select(at =>
                        (other * at.Absorption) + ((1 - other) * at.CarrierAbsorption))]),
                new ScatteringSpectrum(
                    Grid, [.. result.Points.Select(at =>
                        (other * at.Scattering) + ((1 - other) * at.CarrierScattering))]),
                1.5);
            ReflectanceSpectrum[] predicted = [.. new[] { "bare_black", "bare_white" }.Select(card =>
                new LayerStack([new Layer(mixed, 1)], Card(first[3], card))
                    .Reflectance(MeasurementGeometry.DiffuseSpecularExcluded))];
            foreach (double[] row in rows.Select(cells => cells.Skip(6).Select(Number).ToArray()))
            {
                PigmentPoint point = result.Points.Single(at => at.WavelengthNm == row[0]);
                Assert.Equal(row[5], point.ChiSquare, 1e-5 * (1 + row[5]));
                Assert.Equal(row[6], predicted[0][Grid.IndexOf(row[0])], 2e-5);
                Assert.Equal(row[7], predicted[1][Grid.IndexOf(row[0])], 2e-5);
                if (point.IsDetermined)
                {
                    compared++;
                    Assert.Equal(row[1], point.Absorption, 2e-4 * row[1]);
                    Assert.Equal(row[2], point.Scattering, 2e-4 * row[2]);
                }
            }
        }

        Assert.InRange(compared, 25, 33);
    }

    private static DiscSet Layer(
        string paint, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularExcluded) =>
            DiscSet.OverBlackAndWhite(
        paint, 1.5, 1, Readings[(paint, "over_black")], Readings[(paint, "over_white")],
        new Backing(Card(paint, "bare_black", geometry), null),
        new Backing(Card(paint, "bare_white", geometry), null), geometry, ReadingArea.Large, 0.003, 0);

    private static Substrate Card(
        string paint, string part, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularExcluded) =>
        Substrate.FromMeasuredReflectance(part, Readings[(paint, part)], 1.5, geometry);

    private static Dictionary<(string, string), ReflectanceSpectrum> Read() =>
        File.ReadLines(PathOf("tests", "reference", "paints.csv")).Where(line => line[0] != '#').Skip(1)
            .Select(line => line.Split(',')).ToDictionary(
                cells => (cells[0], cells[2]),
                cells => new ReflectanceSpectrum(Grid, [.. cells.Skip(3)
                    .Select(cell => Number(cell) / 100)]));
}
