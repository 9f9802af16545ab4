using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Characterization;

/// <summary>Readings by exact radiative transfer; derivatives by central differences.</summary>
internal sealed class TransportDiscModel(DiscSet set, TransportModel model) : IDiscForwardModel
{
    private const double RelativeStep = 1e-3, SmallestStep = 1e-6;

    private readonly Dictionary<string, TransportSolver> _solvers = [];

    public (double Value, double ByAbsorption, double ByScattering) Evaluate(int reading, int wavelength, double k, double s)
    {
        double stepK = Math.Max(SmallestStep, RelativeStep * k), stepS = Math.Max(SmallestStep, RelativeStep * s);
        double lowK = Math.Max(0, k - stepK), lowS = Math.Max(0, s - stepS);
        return (
            Value(reading, wavelength, k, s),
            (Value(reading, wavelength, k + stepK, s) - Value(reading, wavelength, lowK, s)) / (k + stepK - lowK),
            (Value(reading, wavelength, k, s + stepS) - Value(reading, wavelength, k, lowS)) / (s + stepS - lowS));
    }

    private double Value(int reading, int wavelength, double k, double s)
    {
        DiscReading at = set.Readings[reading];
        double index = set.RefractiveIndex.At(set.Grid[wavelength]);
        if (at.IsTransmittance)
        {
            return model.Transmittance(TransportLayer.FromTwoFlux(k, s, model.Anisotropy, at.ThicknessMm, index), _solvers);
        }

        return model.ReflectanceAt(
            [TransportLayer.FromTwoFlux(k, s, model.Anisotropy, at.ThicknessMm, index)],
            at.Backing!.Substrate, at.Backing.Coupling, set.Grid[wavelength], wavelength, at.Geometry, _solvers);
    }
}
