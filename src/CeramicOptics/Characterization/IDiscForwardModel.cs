namespace CeramicOptics.Characterization;

/// <summary>What a reading should be for given coefficients, at one wavelength.</summary>
internal interface IDiscForwardModel
{
    /// <summary>The reading.</summary>
    double Value(int reading, int wavelength, double k, double s);

    /// <summary>The reading with its derivatives.</summary>
    (double Value, double ByAbsorption, double ByScattering) Evaluate(int reading, int wavelength, double k, double s);
}
