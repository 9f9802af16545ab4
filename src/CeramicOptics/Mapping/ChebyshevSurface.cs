using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Mapping;

/// <summary>Colours, three functions each, over two variables as sums of products of Chebyshev polynomials, from as few exact values as the wanted error needs.</summary>
/// <remarks>
/// Interpolation in the Chebyshev points converges geometrically for analytic functions, such as a colour over thicknesses (Trefethen,
/// Approximation Theory and Approximation Practice, 2013, theorem 8.2; from memory). Both variables are shares of their range, 0 to 1.
/// </remarks>
internal sealed class ChebyshevSurface
{
    private const int FirstDegree = 12, MostDegree = 96;

    // By degree in y, then degree in x, then function.
    private readonly double[] _coefficients;
    private readonly int _count, _functions;

    private ChebyshevSurface(double[] coefficients, int count, int functions, double error) => (_coefficients, _count, _functions, Error) = (coefficients, count, functions, error);

    /// <summary>Values of all functions at one place.</summary>
    public delegate void Sampler(double x, double y, Span<double> values);

    /// <summary>Largest distance from an exact colour seen between the points, the ends included.</summary>
    public double Error { get; }

    public static ChebyshevSurface Fit(Sampler sampler, int functions, double wantedError)
    {
        for (int count = FirstDegree; ; count = count * 3 / 2)
        {
            double[] values = new double[count * count * functions];
            for (int j = 0; j < count; j++)
            {
                for (int i = 0; i < count; i++)
                {
                    sampler(Point(i + 0.5, count), Point(j + 0.5, count), values.AsSpan(((j * count) + i) * functions, functions));
                }
            }

            double[] coefficients = Transform(values, count, functions);
            double error = ErrorBetween(new ChebyshevSurface(coefficients, count, functions, 0), sampler);
            if (error <= wantedError || count * 3 / 2 > MostDegree)
            {
                return new ChebyshevSurface(coefficients, count, functions, error);
            }
        }
    }

    /// <summary>The polynomials at one place.</summary>
    public double[] Basis(double share)
    {
        double[] basis = new double[_count];
        double x = (2 * share) - 1;
        (basis[0], basis[1]) = (1, x);
        for (int k = 2; k < _count; k++)
        {
            basis[k] = (2 * x * basis[k - 1]) - basis[k - 2];
        }

        return basis;
    }

    /// <summary>Coefficients of the functions of x that remain when y is fixed.</summary>
    public double[] Line(double[] basisOfY)
    {
        double[] line = new double[_count * _functions];
        for (int j = 0; j < _count; j++)
        {
            int from = j * line.Length;
            for (int i = 0; i < line.Length; i++)
            {
                line[i] += basisOfY[j] * _coefficients[from + i];
            }
        }

        return line;
    }

    /// <summary>Three functions side by side, such as L*, a*, b*, where a line is met by a place in x.</summary>
    public Lab At(double[] line, double[] basisOfX, int function)
    {
        double one = 0, two = 0, three = 0;
        for (int k = 0, at = function; k < basisOfX.Length; k++, at += _functions)
        {
            double factor = basisOfX[k];
            one += factor * line[at];
            two += factor * line[at + 1];
            three += factor * line[at + 2];
        }

        return new Lab(one, two, three);
    }

    private static double Point(double position, int count) => (1 + Math.Cos(Math.PI * position / count)) / 2;

    // Discrete cosine transform in both variables; each is a plain sum, as the points are few.
    private static double[] Transform(double[] values, int count, int functions)
    {
        double[] cosines = new double[count * count];
        for (int k = 0; k < count; k++)
        {
            for (int i = 0; i < count; i++)
            {
                cosines[(k * count) + i] = Math.Cos(Math.PI * k * (i + 0.5) / count) * (k == 0 ? 1.0 : 2.0) / count;
            }
        }

        int row = count * functions;
        double[] half = new double[values.Length], coefficients = new double[values.Length];
        for (int k = 0; k < count; k++)
        {
            for (int j = 0; j < count; j++)
            {
                for (int i = 0; i < row; i++)
                {
                    half[(k * row) + i] += cosines[(k * count) + j] * values[(j * row) + i];
                }
            }
        }

        for (int j = 0; j < count; j++)
        {
            for (int k = 0; k < count; k++)
            {
                for (int i = 0; i < count; i++)
                {
                    for (int f = 0; f < functions; f++)
                    {
                        coefficients[(j * row) + (k * functions) + f] += cosines[(k * count) + i] * half[(j * row) + (i * functions) + f];
                    }
                }
            }
        }

        return coefficients;
    }

    private static double ErrorBetween(ChebyshevSurface surface, Sampler sampler)
    {
        double[][] bases = [.. Enumerable.Range(0, surface._count + 1).Select(i => surface.Basis(Point(i, surface._count)))];
        double[] exact = new double[surface._functions];
        double worst = 0;
        for (int j = 0; j <= surface._count; j++)
        {
            double[] line = surface.Line(bases[j]);
            for (int i = 0; i <= surface._count; i++)
            {
                sampler(Point(i, surface._count), Point(j, surface._count), exact);
                for (int f = 0; f < exact.Length; f += 3)
                {
                    worst = Math.Max(worst, ColorDifference.Cie76(surface.At(line, bases[i], f), new Lab(exact[f], exact[f + 1], exact[f + 2])));
                }
            }
        }

        return worst;
    }
}
