using CeramicOptics.Characterization;
using CeramicOptics.Layers.Transport;
using FsCheck.Xunit;

namespace CeramicOptics.Tests.Properties;

[Properties(MaxTest = Cases.Many, Arbitrary = [typeof(Generators)])]
public class TransportProperties
{
    private const MeasurementGeometry Di8 = MeasurementGeometry.DiffuseSpecularIncluded;

    [Property(MaxTest = Cases.Some)]
    public void Energy_is_conserved_through_any_layers(
        LayerInput one, LayerInput other, Index first, Index second, Fraction g)
    {
        TransportResult absorbing = Between(one.K, other.K), clear = Between(0, 0);
        Assert.InRange(absorbing.DiffuseReflectance, -1e-9, 1 + 1e-9);
        Assert.InRange(absorbing.NormalReflectance, -1e-9, 1 + 1e-9);
        Assert.InRange(absorbing.DiffuseTransmittance, -1e-9, 1 + 1e-9);
        Assert.InRange(absorbing.NormalTransmittance, -1e-9, 1 + 1e-9);
        Assert.InRange(absorbing.DiffuseReflectance + absorbing.DiffuseTransmittance, 0, 1 + 1e-9);
        Assert.InRange(absorbing.NormalReflectance + absorbing.NormalTransmittance, 0, 1 + 1e-9);
        Assert.Equal(1, clear.DiffuseReflectance + clear.DiffuseTransmittance, 1e-9);
        Assert.Equal(1, clear.NormalReflectance + clear.NormalTransmittance, 1e-9);

        TransportResult Between(double firstAbsorption, double secondAbsorption) => RadiativeTransfer.Solve(
            [
                new TransportLayer(firstAbsorption, one.S, 0.95 * g.Value, one.ThicknessMm, first.Value),
                new TransportLayer(secondAbsorption, other.S, 0.5 * g.Value, other.ThicknessMm, second.Value),
            ],
            1, 1.54, 0.01);
    }

    /// <summary>
    /// Error estimates are upper bounds of the distance from 96 streams: thin, clear, dense and forward scattering
    /// slabs too.
    /// </summary>
    [Property(MaxTest = Cases.Few)]
    public void Estimated_errors_are_upper_bounds(
        LayerInput one, LayerInput other, Index first, Index second, Fraction g)
    {
        double anisotropy = g.Value < 0.5 ? 0 : 0.95 * ((2 * g.Value) - 1);
        TransportLayer[] layers =
        [
            new TransportLayer(one.K, one.S, anisotropy, one.ThicknessMm, first.Value),
            new TransportLayer(other.K, other.S, 0, other.ThicknessMm, second.Value),
        ];
        TransportResult truth = RadiativeTransfer.Solve(layers, 1, 1.54, 96);
        foreach (double tolerance in (double[])[0.1, 1e-3, 1e-5])
        {
            TransportResult result = RadiativeTransfer.Solve(layers, 1, 1.54, tolerance);
            Assert.InRange(result.LargestChangeFrom(truth), 0, result.ErrorEstimate);
        }
    }

    [Property(MaxTest = Cases.Few)]
    public void Estimated_errors_of_stacks_are_upper_bounds(
        CeramicInput ceramic, Fraction thickness, Fraction g, Fraction choice)
    {
        MeasurementGeometry geometry = (MeasurementGeometry)(int)Math.Min(5, choice.Value * 6);
        double anisotropy = Math.Max(0, (1.9 * g.Value) - 0.95);
        LayerStack With(TransportModel model) => new(
            [new Layer(ceramic.Material(model), ceramic.DiscMm * thickness.Value)], Substrate.White,
            choice.Value < 0.5 ? CouplingMedium.Air : null);
        TransportModel model = new(g.Value < 0.5 ? 8 : 12, anisotropy);
        double estimate = model.ErrorEstimate(With(model), geometry);
        ReflectanceSpectrum own = With(model).Reflectance(geometry), truth = With(new TransportModel(48, anisotropy))
            .Reflectance(geometry);
        for (int i = 0; i < own.Grid.Count; i++)
        {
            Assert.InRange(Math.Abs(own[i] - truth[i]), 0, estimate);
        }
    }

    [Property]
    public void Any_stack_has_a_reflectance_in_every_geometry(CeramicInput ceramic, StumpInput stump, Fraction choice)
    {
        LayerStack stack = new(
            [new Layer(ceramic.Material(new TransportModel(6)), ceramic.DiscMm * choice.Value)],
            choice.Value < 0.1 ? Substrate.Black : choice.Value > 0.9 ? Substrate.White : stump.Substrate("stump"),
            choice.Value < 0.5 ? CouplingMedium.Air : null);
        MeasurementGeometry geometry = (MeasurementGeometry)(int)Math.Min(5, choice.Value * 6);

        // Construction of the spectrum refuses NaN and values outside 0 to 1.1.
        ReflectanceSpectrum reflectance = stack.Reflectance(geometry);
        Assert.InRange(
            reflectance.Values[0], 0,
            geometry is MeasurementGeometry.FortyFiveZero or MeasurementGeometry.ZeroFortyFive ? 1.1 : 1 + 1e-4);
    }

    /// <summary>
    /// Readings out of thin air: a fit gives finite coefficients of zero or above, or says what is wrong; it never does
    /// anything else.
    /// </summary>
    [Property(MaxTest = Cases.Some)]
    public void Fits_of_nonsense_stay_physical_or_are_refused(
        Fraction a, Fraction b, Fraction c, Fraction d, Fraction mm)
    {
        WavelengthGrid grid = new(500, 100, 2);
        Backing black = new(
            Substrate.FromInternalReflectance("black", ReflectanceSpectrum.Uniform(grid, 0.01), 1.5),
            CouplingMedium.Glycerine);
        Backing white = new(
            Substrate.FromInternalReflectance("white", ReflectanceSpectrum.Uniform(grid, 0.93), 1.5),
            CouplingMedium.Glycerine);
        ReflectanceSpectrum Flat(Fraction value) => ReflectanceSpectrum.Uniform(grid, value.Value);
        double thickness = 0.1 + (2 * mm.Value);
        DiscSet set;
        try
        {
            set = new DiscSet("nonsense", 1.53,
            [
                DiscReading.Reflectance("a", thickness, Flat(a), black, Di8, ReadingArea.Large),
                DiscReading.Reflectance("b", thickness, Flat(b), white, Di8, ReadingArea.Large),
                DiscReading.Reflectance("c", thickness / 2, Flat(c), white, Di8, ReadingArea.Large),
                DiscReading.Transmittance(
                    "d", thickness, new TransmittanceSpectrum(grid, Flat(d).Values), ReadingArea.Large),
            ]);
        }
        catch (ArgumentException)
        {
            return;
        }

        CharacterizationResult result = DiscCharacterization.Find(set);
        if (result.IsComplete)
        {
            // Construction of the spectra refuses NaN and negative values.
            Material material = result.ToMaterial();
            Assert.All(material.Uncertainty!.ScatteringPerMm.ToArray(), u => Assert.InRange(u, 0, 1e6));
            Assert.True(
                result.Fit!.ChiSquare[0] < 4 * 2 || result.Findings.Any(finding => finding.Kind == FindingKind.PoorFit),
                "a poor fit must be said");
        }
        else
        {
            Assert.Throws<InvalidOperationException>(() => result.ToMaterial());
        }
    }
}
