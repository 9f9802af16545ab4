namespace CeramicOptics.Colorimetry;

/// <summary>Directions in L*a*b*, evenly spread.</summary>
internal static class EvenDirections
{
    /// <summary>Unit vectors on a spiral of equal areas and the golden angle.</summary>
    public static IEnumerable<(double L, double A, double B)> OnSphere(int count)
    {
        double golden = Math.PI * (3 - Math.Sqrt(5));
        for (int k = 0; k < count; k++)
        {
            double l = 1 - (2 * (k + 0.5) / count), radius = Math.Sqrt(1 - (l * l));
            yield return (l, radius * Math.Cos(k * golden), radius * Math.Sin(k * golden));
        }
    }
}
