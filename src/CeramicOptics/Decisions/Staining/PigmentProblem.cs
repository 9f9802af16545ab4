using CeramicOptics.Characterization;
using CeramicOptics.Layers;

namespace CeramicOptics.Decisions.Staining;

/// <summary>
/// Readings of drawdowns as functions of the coefficients of pigment and carrier. Not for use by two threads at once.
/// </summary>
/// <remarks>
/// Unknowns: K and S for one unit of load, then, unless the carrier is known, K and S of the carrier.
/// </remarks>
internal sealed class PigmentProblem
{
    private readonly Material? _carrier;
    private readonly IDiscForwardModel[] _forward;
    private readonly TwoFluxDiscModel[] _rough;

    public PigmentProblem(IReadOnlyList<Drawdown> layers, Material? carrier, IOpticalModel model)
    {
        (Layers, _carrier, Model) = (layers, carrier, model);
        _forward = [.. layers.Select(layer => CoefficientFit.ForwardModel(layer.Layer, model))];
        _rough = [.. layers.Select(layer => new TwoFluxDiscModel(layer.Layer))];
        Readings = layers.Sum(layer => layer.Layer.Readings.Count);
        Drawdown most = layers.OrderByDescending(layer => layer.LoadAsRead).First();
        (MostLoad, ThicknessMm) = (most.LoadAsRead, most.Layer.ThicknessesMm[0]);
    }

    public IReadOnlyList<Drawdown> Layers { get; }

    public IOpticalModel Model { get; }

    public Material? Carrier => _carrier;

    /// <summary>Number of readings at a wavelength.</summary>
    public int Readings { get; }

    /// <summary>Two, or four with the carrier.</summary>
    public int Unknowns => _carrier is null ? 4 : 2;

    /// <summary>Largest load, as read, and the thickness of its layer.</summary>
    public double MostLoad { get; }

    public double ThicknessMm { get; }

    /// <summary>Coefficients of a layer, 1/mm.</summary>
    public (double K, double S) Of(Drawdown layer, double[] x, int wavelength)
    {
        (double k, double s) = CarrierAt(x, wavelength);
        return ((layer.CarrierShare * k) + (layer.LoadAsRead * x[0]),
            (layer.CarrierShare * s) + (layer.LoadAsRead * x[1]));
    }

    public (double K, double S) CarrierAt(double[] x, int wavelength) => _carrier is null
        ? (x[2], x[3])
        : (_carrier.Absorption[wavelength], _carrier.Scattering[wavelength]);

    /// <summary>Sum of squared residuals in units of their standard uncertainty.</summary>
    public double ChiSquare(double[] x, int wavelength)
    {
        double sum = 0;
        for (int j = 0; j < Layers.Count; j++)
        {
            (double k, double s) = Of(Layers[j], x, wavelength);
            sum += WavelengthFit.ChiSquareAt(Layers[j].Layer, _forward[j], wavelength, k, s);
        }

        return sum;
    }

    /// <summary>Every reading with its derivatives, in units of its standard uncertainty.</summary>
    public List<Row> Linearize(double[] x, int wavelength)
    {
        List<Row> rows = [];
        for (int j = 0; j < Layers.Count; j++)
        {
            (double k, double s) = Of(Layers[j], x, wavelength);
            for (int r = 0; r < Layers[j].Layer.Readings.Count; r++)
            {
                DiscReading reading = Layers[j].Layer.Readings[r];
                (double value, double byK, double byS) = _forward[j].Evaluate(r, wavelength, k, s);
                double weight = 1 / reading.StandardUncertainty;
                rows.Add(new Row(
                    j, reading, (value - reading.Values[wavelength]) * weight, byK * weight, byS * weight));
            }
        }

        return rows;
    }

    /// <summary>
    /// Where the fit starts: least squares on the coefficients that two-flux theory finds for each layer alone.
    /// </summary>
    public double[] Start(int wavelength)
    {
        double aa = 0, ab = 0, bb = 0;
        double[] right = new double[4];
        for (int j = 0; j < Layers.Count; j++)
        {
            (double k, double s) = CoefficientFit.Start(Layers[j].Layer, _rough[j], wavelength);
            double load = Layers[j].LoadAsRead / MostLoad, share = Layers[j].CarrierShare;
            (aa, ab, bb) = (aa + (load * load), ab + (load * share), bb + (share * share));
            (right[0], right[1]) = (right[0] + (load * k), right[1] + (load * s));
            (right[2], right[3]) = (right[2] + (share * k), right[3] + (share * s));
        }

        double[] x = new double[Unknowns];
        double[] known = [_carrier?.Absorption[wavelength] ?? 0, _carrier?.Scattering[wavelength] ?? 0];
        double determinant = (aa * bb) - (ab * ab);
        for (int c = 0; c < 2; c++)
        {
            double pigment = _carrier is null
                ? ((bb * right[c]) - (ab * right[c + 2])) / determinant
                : (right[c] - (ab * known[c])) / aa;
            x[c] = Positive(pigment) / MostLoad;
            if (_carrier is null)
            {
                x[c + 2] = Positive(((aa * right[c + 2]) - (ab * right[c])) / determinant);
            }
        }

        return x;
    }

    private static double Positive(double value) => value > 1e-3 ? Math.Min(value, 1e4) : 1e-3;

    /// <summary>A reading: its layer, its residual and its derivatives by K and S of the layer.</summary>
    public readonly record struct Row(int Layer, DiscReading Reading, double Residual, double ByK, double ByS);
}
