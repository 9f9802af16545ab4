using System.Numerics;
using System.Runtime.InteropServices;
#if NET
using System.Runtime.Intrinsics;
#endif
using CeramicOptics.Spectra;

namespace CeramicOptics.Colorimetry;

/// <summary>
/// Tristimulus weights of one observer and illuminant for spectra on one grid, and how they were made.
/// </summary>
/// <remarks>
/// X = sum of weight times reflectance, and so on; Y of the perfect diffuser is 100. The sum runs from 360 to 780 nm at
/// 1 nm (ASTM E308), or over the part of this range that the tables of the observer and the illuminant have, or at the
/// step of finer data. Between coarser data, Lagrange's cubic (a parabola in the first and last interval) is folded
/// into the weights (ASTM E2022). Where the data ends early, its end value is used at the missing wavelengths, which
/// adds their weights to the end (ASTM E308); <see cref="HeldFraction"/> says how much that is.
/// </remarks>
public sealed class WeightingTable
{
    private const double MustReachDownToNm = 400, MustReachUpToNm = 700, HeldFromNm = 380;

    private readonly double[] _x, _y, _z;

    internal WeightingTable(TristimulusNodes nodes, WavelengthGrid grid)
    {
        RequireVisible(grid);
        Grid = grid;
        double scale = 100 / nodes.Sum.Y;
        White = new Xyz(scale * nodes.Sum.X, 100, scale * nodes.Sum.Z);
        (_x, _y, _z) = (new double[grid.Count], new double[grid.Count], new double[grid.Count]);

        // Data is continued at its own step beyond its ends, with the end values, until it covers the sum.
        int last = grid.Count - 1;
        int lowest = Math.Min(0, (int)Math.Floor((nodes.Grid.StartNm - grid.StartNm) / grid.StepNm));
        int highest = Math.Max(last, (int)Math.Ceiling((nodes.Grid.EndNm - grid.StartNm) / grid.StepNm));
        double heldX = 0, heldY = 0, heldZ = 0;
        Span<double> coefficients = stackalloc double[LagrangeCubic.MostCoefficients];
        for (int i = 0; i < nodes.Grid.Count; i++)
        {
            (double x, double y, double z) = (scale * nodes.X[i], scale * nodes.Y[i], scale * nodes.Z[i]);
            double position = (nodes.Grid[i] - grid.StartNm) / grid.StepNm;
            int first = LagrangeCubic.Coefficients(position, lowest, highest, coefficients, out int count);
            for (int k = 0; k < count; k++)
            {
                int at = Math.Min(Math.Max(first + k, 0), last);
                _x[at] += x * coefficients[k];
                _y[at] += y * coefficients[k];
                _z[at] += z * coefficients[k];
            }

            if (nodes.Grid[i] >= HeldFromNm && (position < -1e-9 || position > last + 1e-9))
            {
                (heldX, heldY, heldZ) = (heldX + x, heldY + y, heldZ + z);
            }
        }

        HeldFraction = Math.Max(heldX / White.X, Math.Max(heldY / White.Y, heldZ / White.Z));
    }

    /// <summary>The wavelengths of the data.</summary>
    internal WavelengthGrid Grid { get; }

    /// <summary>Tristimulus values of the perfect reflecting diffuser; Y = 100.</summary>
    internal Xyz White { get; }

    /// <summary>
    /// Largest share (0 to 1) of X, Y or Z of white that rests on wavelengths from 380 to 780 nm that the data does not
    /// reach; 0 for complete data.
    /// </summary>
    /// <remarks>
    /// Below 380 nm, where few instruments reach, lie at most 0.0005 of a tristimulus value, 0.001 for the hottest
    /// black body; that is not counted.
    /// </remarks>
    public double HeldFraction { get; }

    /// <summary>Weights of X, one for each wavelength.</summary>
    internal ReadOnlySpan<double> X => _x;

    /// <summary>Weights of Y, one for each wavelength.</summary>
    internal ReadOnlySpan<double> Y => _y;

    /// <summary>Weights of Z, one for each wavelength.</summary>
    internal ReadOnlySpan<double> Z => _z;

    /// <summary>Tristimulus values of reflectances on its grid; allocates nothing.</summary>
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

    /// <summary>L*a*b* of reflectances on its grid; allocates nothing.</summary>
    /// <param name="reflectances">One reflectance factor for each wavelength.</param>
    /// <exception cref="ArgumentException">The number of values differs from the grid's.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A sum of reflectances is not finite.</exception>
    public Lab ToLab(ReadOnlySpan<double> reflectances) => Lab.FromXyz(ToXyz(reflectances), White);

    /// <summary>Tristimulus values of many spectra, one after the other in memory; allocates nothing.</summary>
    /// <param name="reflectances">
    /// Reflectance factors, all wavelengths of the first spectrum, then of the second, and so on.
    /// </param>
    /// <param name="destination">Receives one colour for each spectrum.</param>
    /// <exception cref="ArgumentException">
    /// The number of reflectances is not that of the grid times that of <paramref name="destination"/>.
    /// </exception>
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
    /// <param name="reflectances">
    /// Reflectance factors, all wavelengths of the first spectrum, then of the second, and so on.
    /// </param>
    /// <param name="destination">Receives one colour for each spectrum.</param>
    /// <exception cref="ArgumentException">
    /// The number of reflectances is not that of the grid times that of <paramref name="destination"/>.
    /// </exception>
    /// <exception cref="ArgumentOutOfRangeException">A sum of reflectances is not finite.</exception>
    /// <remarks>
    /// Sums run in SIMD lanes; XYZ agrees with the scalar form within 1e-13 of itself, L*a*b* within 1e-10.
    /// </remarks>
    public void ToLab(ReadOnlySpan<double> reflectances, Span<Lab> destination)
    {
        RequireSpectra(reflectances, destination.Length);
        int n = _x.Length, done = 0;
#if NET
        Span<double> sums = stackalloc double[3 * LabKernel.Width];
        for (; done + LabKernel.Width <= destination.Length; done += LabKernel.Width)
        {
            TristimulusKernel.Sum(_x, _y, _z, reflectances.Slice(done * n), sums);
            Vector512<double> x = Vector512.Create<double>(sums);
            Vector512<double> y = Vector512.Create<double>(sums.Slice(LabKernel.Width));
            Vector512<double> z = Vector512.Create<double>(sums.Slice(2 * LabKernel.Width));
            if (!LabKernel.TryConvert(x, y, z, White, destination.Slice(done)))
            {
                break;
            }
        }
#endif
        for (; done < destination.Length; done++)
        {
            destination[done] = Lab.FromXyz(SumInLanes(reflectances.Slice(done * n, n)), White);
        }
    }

    private void RequireSpectra(ReadOnlySpan<double> reflectances, int count)
    {
        if (reflectances.Length != (long)count * _x.Length)
        {
            throw new ArgumentException(
                $"{reflectances.Length} reflectances given for {count} spectra of {Grid}.", nameof(reflectances));
        }
    }

    internal Xyz SumInLanes(ReadOnlySpan<double> reflectances)
    {
        int whole = reflectances.Length - (reflectances.Length % Vector<double>.Count);
        ReadOnlySpan<Vector<double>> r = MemoryMarshal.Cast<double, Vector<double>>(reflectances.Slice(0, whole));
        ReadOnlySpan<Vector<double>> wx = MemoryMarshal.Cast<double, Vector<double>>(_x);
        ReadOnlySpan<Vector<double>> wy = MemoryMarshal.Cast<double, Vector<double>>(_y);
        ReadOnlySpan<Vector<double>> wz = MemoryMarshal.Cast<double, Vector<double>>(_z);
        Vector<double> xs = Vector<double>.Zero, ys = Vector<double>.Zero, zs = Vector<double>.Zero;
        for (int i = 0; i < r.Length; i++)
        {
            xs += wx[i] * r[i];
            ys += wy[i] * r[i];
            zs += wz[i] * r[i];
        }

        double x = Vector.Dot(xs, Vector<double>.One);
        double y = Vector.Dot(ys, Vector<double>.One);
        double z = Vector.Dot(zs, Vector<double>.One);
        for (int i = whole; i < reflectances.Length; i++)
        {
            x += _x[i] * reflectances[i];
            y += _y[i] * reflectances[i];
            z += _z[i] * reflectances[i];
        }

        return new Xyz(x, y, z);
    }

    internal static void RequireVisible(WavelengthGrid grid)
    {
        if (grid.StartNm > MustReachDownToNm || grid.EndNm < MustReachUpToNm)
        {
            throw new ArgumentException(
                $"Colour needs data at least from {Guard.Text(MustReachDownToNm)} to {Guard.Text(MustReachUpToNm)} nm; "
                + $"the data is given at {grid}.",
                nameof(grid));
        }
    }
}
