using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Comparison;

/// <summary>What an error of reflectances does to colours.</summary>
internal static class ColorError
{
    /// <summary>Largest CIELAB distance that an error of at most so much in every reflectance makes, first
    /// order.</summary>
    public static double Of(double reflectanceError, ReadOnlySpan<double> xyz, WeightingTable table)
    {
        double x = OfF(reflectanceError, xyz[0], table.X, table.White.X);
        double y = OfF(reflectanceError, xyz[1], table.Y, table.White.Y);
        double z = OfF(reflectanceError, xyz[2], table.Z, table.White.Z);
        (double l, double a, double b) = (116 * y, 500 * (x + y), 200 * (y + z));
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    private static double OfF(double reflectanceError, double value, ReadOnlySpan<double> weights, double white)
    {
        double sum = 0;
        foreach (double weight in weights)
        {
            sum += Math.Abs(weight);
        }

        return Lab.FSlope(value / white) * reflectanceError * sum / white;
    }
}
