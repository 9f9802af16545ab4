using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;

namespace CeramicOptics.Characterization;

/// <summary>Readings by two-flux theory, with its closed derivatives.</summary>
internal sealed class TwoFluxDiscModel : IDiscForwardModel
{
    private readonly DiscSet _set;
    private readonly double[,] _backing;
    private readonly SurfaceCorrection[,] _surface;
    private readonly (double Into, double Inside)[] _faces;

    public TwoFluxDiscModel(DiscSet set)
    {
        _set = set;
        _backing = new double[set.Readings.Count, set.Grid.Count];
        _surface = new SurfaceCorrection[set.Readings.Count, set.Grid.Count];
        _faces = new (double, double)[set.Grid.Count];
        BoundaryCache boundaries = new();
        for (int i = 0; i < set.Grid.Count; i++)
        {
            double index = set.RefractiveIndex.At(set.Grid[i]);
            _faces[i] = (1 - Boundary.Fresnel(1, index, 0), boundaries.Diffuse(1, index).ReflectanceFromBelow);
            for (int r = 0; r < set.Readings.Count; r++)
            {
                DiscReading reading = set.Readings[r];
                _surface[r, i] = boundaries.Surface(reading.Geometry, index);
                _backing[r, i] = reading.Backing?.SeenFrom(index, set.Grid[i], i, boundaries) ?? 0;
            }
        }
    }

    public double BackingOf(int reading, int wavelength) => _backing[reading, wavelength];

    public double InternalOf(int reading, int wavelength) =>
        _surface[reading, wavelength].Inverse(_set.Readings[reading].Values[wavelength]);

    public double Value(int reading, int wavelength, double k, double s) => Evaluate(reading, wavelength, k, s).Value;

    public (double Value, double ByAbsorption, double ByScattering) Evaluate(
        int reading, int wavelength, double k, double s)
    {
        DiscReading at = _set.Readings[reading];
        LayerSensitivity layer = TwoFluxLayer.Sensitivity(k, s, at.ThicknessMm, _backing[reading, wavelength]);
        if (!at.IsTransmittance)
        {
            SurfaceCorrection surface = _surface[reading, wavelength];
            double slope = surface.MeasuredSlope(layer.Reflectance);
            return (surface.Measured(layer.Reflectance), slope * layer.ByAbsorptionMm, slope * layer.ByScatteringMm);
        }

        // Light enters through one face, is reflected inside by both, leaves by the other: T = a T (1 - b) / ((1 - b
        // R0)² - (b T)²).
        (double into, double b) = _faces[wavelength];
        (double t, double tK, double tS) = TwoFluxLayer.TransmittanceSensitivity(k, s, at.ThicknessMm);
        double loss = 1 - (b * layer.Reflectance), divisor = (loss * loss) - (b * b * t * t), scale = into * (1 - b);
        double Change(double dR, double dT) =>
            scale * ((dT / divisor) + (t * ((2 * b * loss * dR) + (2 * b * b * t * dT)) / (divisor * divisor)));
        return (scale * t / divisor, Change(layer.ByAbsorptionMm, tK), Change(layer.ByScatteringMm, tS));
    }
}
