namespace CeramicOptics.Characterization;

/// <summary>What a reading should be for given coefficients, with derivatives, at one wavelength.</summary>
internal interface IDiscForwardModel
{
    (double Value, double ByAbsorption, double ByScattering) Evaluate(int reading, int wavelength, double k, double s);
}
