namespace CeramicOptics.Mapping;

/// <summary>Numbers of 16 bits (IEEE 754 binary16), which .NET Framework does not have.</summary>
internal static class HalfFloat
{
    private const int Bias = 15, FractionBits = 10;

    // Just below what rounds to infinity: half a step beyond the largest one, 65520.
    private const double Largest = 65519.999;

    /// <summary>The nearest such number; the even one of two equally near.</summary>
    /// <param name="value">Any finite number.</param>
    /// <param name="stored">Receives its value.</param>
    /// <returns>Its 16 bits.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Too large, or not a number.</exception>
    public static uint Round(double value, out double stored)
    {
        double size = Math.Abs(Guard.InRange(value, -Largest, Largest, ""));
        long bits = BitConverter.DoubleToInt64Bits(size);
        int exponent = Math.Max((int)(bits >> 52) - 1023, 1 - Bias);
        double step = Math.Pow(2, exponent - FractionBits), steps = Math.Round(size / step, MidpointRounding.ToEven);
        stored = value < 0 ? -steps * step : steps * step;
        uint sign = value < 0 ? 0x8000u : 0;

        // Where rounding reaches the next power of two, the sum carries into the exponent.
        return sign | (uint)(((exponent + Bias - 1) << FractionBits) + (int)steps);
    }
}
