using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Mapping;

/// <summary>
/// Texels of a table, as they are stored, and what a graphics processor reads between them: colours in linear light,
/// and the difference.
/// </summary>
/// <remarks>Coordinates are in texels from the centre of the first one, which is the thinnest wall.</remarks>
internal sealed class GpuTexels
{
    /// <summary>Numbers of one texel.</summary>
    public const int Channels = 4;

    // Tristimulus values of full red, green and blue.
    private static readonly Xyz Red = Primary(0), Green = Primary(1), Blue = Primary(2);

    private readonly double[] _values;

    /// <param name="width">Texels along the first thickness.</param>
    /// <param name="height">Texels along the second thickness; 1 where there is none.</param>
    /// <param name="isHalf">True for numbers of 16 bits, false for 32.</param>
    /// <param name="color">Colour of a texel.</param>
    /// <param name="difference">Difference of a texel.</param>
    public GpuTexels(
        int width, int height, bool isHalf, Func<double, double, Lab> color, Func<double, double, double> difference)
    {
        (Width, Height) = (width, height);
        int size = isHalf ? 2 : 4, bytes = 0;
        Bytes = new byte[width * height * Channels * size];
        _values = new double[width * height * Channels];
        Xyz white = Colorimeter.D65TwoDegree.White;
        Span<double> texel = stackalloc double[Channels];
        for (int i = 0; i < width * height; i++)
        {
            (double x, double y) = (i % width, i / width);
            (texel[0], texel[1], texel[2]) = Srgb.LinearFromXyz(color(x, y).ToXyz(white));
            texel[3] = difference(x, y);
            for (int channel = 0; channel < Channels; channel++)
            {
                uint bits = isHalf
                    ? HalfFloat.Round(texel[channel], out double stored)
                    : Single((float)texel[channel], out stored);
                _values[(i * Channels) + channel] = stored;
                for (int k = 0; k < size; k++)
                {
                    Bytes[bytes++] = (byte)(bits >> (8 * k));
                }
            }
        }
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>The numbers of all texels, little-endian, row by row.</summary>
    public byte[] Bytes { get; }

    /// <summary>Largest change of the difference from a texel to the next of its row, and of its column.</summary>
    public (double Along, double Across) LargestSteps()
    {
        (double along, double across) = (0, 0);
        for (int j = 0; j < Height; j++)
        {
            for (int i = 0; i < Width; i++)
            {
                double here = At(i, j, 3);
                along = i + 1 < Width ? Math.Max(along, Math.Abs(At(i + 1, j, 3) - here)) : along;
                across = j + 1 < Height ? Math.Max(across, Math.Abs(At(i, j + 1, 3) - here)) : across;
            }
        }

        return (along, across);
    }

    /// <summary>The difference as linear filtering reads it (OpenGL 4.6, 8.14.2), with exact weights.</summary>
    public double Difference(double x, double y)
    {
        (int i, int j) = Cell(x, y);
        return Filtered(i, j, x - i, y - j, 3);
    }

    /// <summary>
    /// Largest distance in L*a*b* of what linear filtering reads from a colour, with weights that are off by up to a
    /// given amount.
    /// </summary>
    public double ColorError(double x, double y, Lab exact, double weightError, Xyz white)
    {
        (int i, int j) = Cell(x, y);
        double worst = 0;
        for (int corner = 0; corner < (Height > 1 ? 4 : 2); corner++)
        {
            double u = Weight(x - i + (corner % 2 == 0 ? weightError : -weightError));
            double v = Height > 1 ? Weight(y - j + (corner < 2 ? weightError : -weightError)) : 0;
            double r = Filtered(i, j, u, v, 0), g = Filtered(i, j, u, v, 1), b = Filtered(i, j, u, v, 2);
            Xyz read = new(
                (r * Red.X) + (g * Green.X) + (b * Blue.X), (r * Red.Y) + (g * Green.Y) + (b * Blue.Y),
                (r * Red.Z) + (g * Green.Z) + (b * Blue.Z));
            worst = Math.Max(worst, ColorDifference.Cie76(exact, Lab.FromXyz(read, white)));
        }

        return worst;
    }

    // Cramer's rule on the matrix of the standard, so that no other rounded one is needed.
    private static Xyz Primary(int channel)
    {
        (double r1, double g1, double b1) = Srgb.LinearFromXyz(new Xyz(100, 0, 0));
        (double r2, double g2, double b2) = Srgb.LinearFromXyz(new Xyz(0, 100, 0));
        (double r3, double g3, double b3) = Srgb.LinearFromXyz(new Xyz(0, 0, 100));
        double volume = (
            (r1 * ((g2 * b3) - (b2 * g3))) - (r2 * ((g1 * b3) - (b1 * g3))) + (r3 * ((g1 * b2) - (b1 * g2)))) / 100;
        return channel switch
        {
            0 => new Xyz(
                ((g2 * b3) - (b2 * g3)) / volume, ((b1 * g3) - (g1 * b3)) / volume, ((g1 * b2) - (b1 * g2)) / volume),
            1 => new Xyz(
                ((b2 * r3) - (r2 * b3)) / volume, ((r1 * b3) - (b1 * r3)) / volume, ((b1 * r2) - (r1 * b2)) / volume),
            _ => new Xyz(
                ((r2 * g3) - (g2 * r3)) / volume, ((g1 * r3) - (r1 * g3)) / volume, ((r1 * g2) - (g1 * r2)) / volume),
        };
    }

    private static double Weight(double weight) => Math.Min(Math.Max(weight, 0), 1);

    private static uint Single(float value, out double stored)
    {
        stored = value;
        return BitConverter.ToUInt32(BitConverter.GetBytes(value), 0);
    }

    private (int Column, int Row) Cell(double x, double y) =>
        (Math.Min((int)x, Width - 2), Math.Max(0, Math.Min((int)y, Height - 2)));

    private double Filtered(int i, int j, double u, double v, int channel)
    {
        double upper = ((1 - u) * At(i, j, channel)) + (u * At(i + 1, j, channel));
        return Height == 1
            ? upper
            : ((1 - v) * upper) + (v * (((1 - u) * At(i, j + 1, channel)) + (u * At(i + 1, j + 1, channel))));
    }

    private double At(int i, int j, int channel) => _values[(((j * Width) + i) * Channels) + channel];
}
