using System.Numerics;
using System.Runtime.InteropServices;
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>Tristimulus weights of one observer and illuminant for spectra on one grid, and how they were made.</summary>
/// <remarks>
/// X = sum of weight times reflectance, and so on; Y of the perfect diffuser is 100. Summation runs from 380 to 780 nm at 5 nm
/// (CIE 15:2004, 7.1), or at the step of finer data. Between coarser data, Lagrange's cubic (a parabola in the first and last
/// interval) is folded into the weights (ASTM E2022). Where the data ends early its last value is held, which adds the missing
/// weights to the end (ASTM E308); <see cref="HeldFraction"/> tells how much that is.
/// </remarks>
public sealed class WeightingTable
{
    private const double StartNm = 380, EndNm = 780, TableStepNm = 5;
    private const double MustReachDownToNm = 400, MustReachUpToNm = 700;

    private readonly double[] _x, _y, _z;

    internal WeightingTable(Observer observer, Illuminant illuminant, WavelengthGrid grid)
    {
        if (grid.StartNm > MustReachDownToNm || grid.EndNm < MustReachUpToNm)
        {
            throw new ArgumentException(
                $"Colour needs data at least from {Guard.Text(MustReachDownToNm)} to {Guard.Text(MustReachUpToNm)} nm; the data is given at {grid}.", nameof(grid));
        }

        Grid = grid;
        WavelengthGrid nodes = SummationNodes(grid);
        Method = nodes.StepNm < TableStepNm ? WeightingMethod.FineDirectSum
            : grid.StepNm == TableStepNm && grid.IndexOf(MustReachDownToNm) >= 0 ? WeightingMethod.DirectSum
            : WeightingMethod.InterpolatedSum;
        double[] power = AtNodes(illuminant.Power.Grid, illuminant.Power, nodes, $"Illuminant {illuminant.Name}");
        (_x, _y, _z) = (new double[grid.Count], new double[grid.Count], new double[grid.Count]);
        ReadOnlySpan<double> x = AtNodes(observer.Grid, observer.X, nodes), y = AtNodes(observer.Grid, observer.Y, nodes), z = AtNodes(observer.Grid, observer.Z, nodes);

        double scale = 0;
        for (int i = 0; i < nodes.Count; i++)
        {
            scale += power[i] * y[i];
        }

        Span<double> held = stackalloc double[3], all = stackalloc double[3];
        Span<double> coefficients = stackalloc double[4];
        for (int i = 0; i < nodes.Count; i++)
        {
            double unit = 100 * power[i] / scale;
            bool outside = Interpolant(grid, nodes[i], coefficients, out int first, out int count);
            for (int k = 0; k < count; k++)
            {
                _x[first + k] += unit * x[i] * coefficients[k];
                _y[first + k] += unit * y[i] * coefficients[k];
                _z[first + k] += unit * z[i] * coefficients[k];
            }

            ReadOnlySpan<double> part = [unit * x[i], unit * y[i], unit * z[i]];
            for (int k = 0; k < 3; k++)
            {
                all[k] += part[k];
                held[k] += outside ? part[k] : 0;
            }
        }

        White = new Xyz(all[0], all[1], all[2]);
        HeldFraction = Math.Max(held[0] / all[0], Math.Max(held[1] / all[1], held[2] / all[2]));
    }

    /// <summary>The wavelengths of the data.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>How the weights were made.</summary>
    public WeightingMethod Method { get; }

    /// <summary>Tristimulus values of the perfect reflecting diffuser; Y = 100.</summary>
    public Xyz White { get; }

    /// <summary>Largest share (0 to 1) of X, Y or Z of white that rests on wavelengths the data does not reach; 0 for complete data.</summary>
    public double HeldFraction { get; }

    /// <summary>Weights of X, one for each wavelength.</summary>
    public ReadOnlySpan<double> X => _x;

    /// <summary>Weights of Y, one for each wavelength.</summary>
    public ReadOnlySpan<double> Y => _y;

    /// <summary>Weights of Z, one for each wavelength.</summary>
    public ReadOnlySpan<double> Z => _z;

    /// <summary>Tristimulus values of reflectances on <see cref="Grid"/>; allocates nothing.</summary>
    /// <param name="reflectances">One reflectance factor for each wavelength.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    public Xyz ToXyz(ReadOnlySpan<double> reflectances)
    {
        if (reflectances.Length != _x.Length)
        {
            throw new ArgumentException($"{reflectances.Length} reflectances given for {Grid}.", nameof(reflectances));
        }

        double x = 0, y = 0, z = 0;
        for (int i = 0; i < reflectances.Length; i++)
        {
            x += _x[i] * reflectances[i];
            y += _y[i] * reflectances[i];
            z += _z[i] * reflectances[i];
        }

        return new Xyz(x, y, z);
    }

    /// <summary>L*a*b* of reflectances on <see cref="Grid"/>; allocates nothing.</summary>
    /// <param name="reflectances">One reflectance factor for each wavelength.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    public Lab ToLab(ReadOnlySpan<double> reflectances) => Lab.FromXyz(ToXyz(reflectances), White);

    /// <summary>Tristimulus values of many spectra, one after the other in memory; allocates nothing.</summary>
    /// <param name="reflectances">Reflectance factors, all wavelengths of the first spectrum, then of the second, and so on.</param>
    /// <param name="destination">Receives one colour for each spectrum.</param>
    /// <exception cref="ArgumentException">The number of reflectances is not that of the grid times that of <paramref name="destination"/>.</exception>
    /// <remarks>Sums run in SIMD lanes; they agree with the scalar form within 1e-13 of themselves.</remarks>
    public void ToXyz(ReadOnlySpan<double> reflectances, Span<Xyz> destination)
    {
        RequireSpectra(reflectances, destination.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = SumInLanes(reflectances.Slice(i * _x.Length, _x.Length));
        }
    }

    /// <summary>L*a*b* of many spectra, one after the other in memory; allocates nothing.</summary>
    /// <param name="reflectances">Reflectance factors, all wavelengths of the first spectrum, then of the second, and so on.</param>
    /// <param name="destination">Receives one colour for each spectrum.</param>
    /// <exception cref="ArgumentException">The number of reflectances is not that of the grid times that of <paramref name="destination"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A sum of reflectances is not finite.</exception>
    /// <remarks>Sums run in SIMD lanes; XYZ agrees with the scalar form within 1e-13 of itself, L*a*b* within 1e-10.</remarks>
    public void ToLab(ReadOnlySpan<double> reflectances, Span<Lab> destination)
    {
        RequireSpectra(reflectances, destination.Length);
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = Lab.FromXyz(SumInLanes(reflectances.Slice(i * _x.Length, _x.Length)), White);
        }
    }

    private void RequireSpectra(ReadOnlySpan<double> reflectances, int count)
    {
        if (reflectances.Length != (long)count * _x.Length)
        {
            throw new ArgumentException($"{reflectances.Length} reflectances given for {count} spectra of {Grid}.", nameof(reflectances));
        }
    }

    internal Xyz SumInLanes(ReadOnlySpan<double> reflectances)
    {
        int whole = reflectances.Length - (reflectances.Length % Vector<double>.Count);
        ReadOnlySpan<Vector<double>> r = MemoryMarshal.Cast<double, Vector<double>>(reflectances.Slice(0, whole));
        ReadOnlySpan<Vector<double>> wx = MemoryMarshal.Cast<double, Vector<double>>(_x), wy = MemoryMarshal.Cast<double, Vector<double>>(_y), wz = MemoryMarshal.Cast<double, Vector<double>>(_z);
        Vector<double> xs = Vector<double>.Zero, ys = Vector<double>.Zero, zs = Vector<double>.Zero;
        for (int i = 0; i < r.Length; i++)
        {
            xs += wx[i] * r[i];
            ys += wy[i] * r[i];
            zs += wz[i] * r[i];
        }

        (double x, double y, double z) = (Vector.Dot(xs, Vector<double>.One), Vector.Dot(ys, Vector<double>.One), Vector.Dot(zs, Vector<double>.One));
        for (int i = whole; i < reflectances.Length; i++)
        {
            x += _x[i] * reflectances[i];
            y += _y[i] * reflectances[i];
            z += _z[i] * reflectances[i];
        }

        return new Xyz(x, y, z);
    }

    private static WavelengthGrid SummationNodes(WavelengthGrid grid)
    {
        double perTableStep = TableStepNm / grid.StepNm, offset = (grid.StartNm - StartNm) / grid.StepNm;
        bool finer = perTableStep > 1.5 && IsWhole(perTableStep) && IsWhole(offset);
        return WavelengthGrid.Range(StartNm, EndNm, finer ? grid.StepNm : TableStepNm);
    }

    private static bool IsWhole(double value) => Math.Abs(value - Math.Round(value)) < 1e-9;

    private static double[] AtNodes(WavelengthGrid grid, PowerSpectrum power, WavelengthGrid nodes, string what)
    {
        if (grid.StartNm > StartNm || grid.EndNm < EndNm)
        {
            throw new ArgumentException($"{what} must reach from {Guard.Text(StartNm)} to {Guard.Text(EndNm)} nm but is given at {grid}.");
        }

        return power.Resample(nodes).Values.ToArray();
    }

    private static double[] AtNodes(WavelengthGrid grid, ReadOnlySpan<double> function, WavelengthGrid nodes)
    {
        double[] values = new double[nodes.Count];
        if (nodes.StepNm == grid.StepNm)
        {
            function.Slice(grid.IndexOf(nodes.StartNm), nodes.Count).CopyTo(values);
            return values;
        }

        return SpectralInterpolation.Sprague(grid, function, nodes);
    }

    // Which data, with which coefficients, give the value at a node; true where the node is outside and the end value is held.
    private static bool Interpolant(WavelengthGrid grid, double nodeNm, Span<double> coefficients, out int first, out int count)
    {
        int on = grid.IndexOf(nodeNm);
        bool below = nodeNm < grid.StartNm, above = nodeNm > grid.EndNm;
        if (on >= 0 || below || above)
        {
            first = on >= 0 ? on : below ? 0 : grid.Count - 1;
            count = 1;
            coefficients[0] = 1;
            return on < 0;
        }

        double position = (nodeNm - grid.StartNm) / grid.StepNm;
        int left = (int)Math.Floor(position);
        first = Math.Max(left - 1, 0);
        count = Math.Min(left + 2, grid.Count - 1) - first + 1;
        for (int j = 0; j < count; j++)
        {
            coefficients[j] = 1;
            for (int m = 0; m < count; m++)
            {
                coefficients[j] *= m == j ? 1 : (position - first - m) / (j - m);
            }
        }

        return false;
    }
}
