namespace CeramicOptics.Colorimetry;

/// <summary>Elementary functions that colour formulas share.</summary>
internal static class Angle
{
    public static double Radians(double degrees) => degrees * (Math.PI / 180);

    /// <summary>Angle of the vector (x, y) in [0, 360) degrees; 0 for the zero vector.</summary>
    public static double DegreesOf(double y, double x)
    {
        if (x == 0 && y == 0)
        {
            return 0;
        }

        double degrees = Math.Atan2(y, x) * (180 / Math.PI);
        degrees = degrees < 0 ? degrees + 360 : degrees;
        return degrees >= 360 ? 0 : degrees;
    }

    public static double CubeRoot(double value)
    {
#if NET
        return Math.Cbrt(value);
#else
        if (value == 0)
        {
            return 0;
        }

        // Pow is right to about 1e-15; one Newton step brings it to the last bit or two.
        double root = Math.Sign(value) * Math.Pow(Math.Abs(value), 1.0 / 3);
        return root - (((root * root * root) - value) / (3 * root * root));
#endif
    }
}
