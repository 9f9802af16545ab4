namespace CeramicOptics.Tests.Reference;

/// <summary>Cosines of scattering angles, drawn at random.</summary>
internal static class PhaseFunction
{
    /// <summary>A cosine drawn by Henyey and Greenstein's function.</summary>
    public static double HenyeyGreenstein(double g, double chance)
    {
        double ratio = (1 - (g * g)) / (1 - g + (2 * g * chance));
        return g == 0 ? (2 * chance) - 1 : (1 + (g * g) - (ratio * ratio)) / (2 * g);
    }

    /// <summary>A cosine drawn by Rayleigh's function, 3/4 (1 + cos² θ), by rejection.</summary>
    public static double Rayleigh(Func<double> uniform)
    {
        double cosine;
        do
        {
            cosine = (2 * uniform()) - 1;
        }
        while (2 * uniform() > 1 + (cosine * cosine));
        return cosine;
    }
}
