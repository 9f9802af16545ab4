using MathNet.Numerics.Integration;

namespace CeramicOptics.Layers.Transport;

/// <summary>Directions of light that refract into each other through a stack of media, with their cosines and weights in each medium.</summary>
/// <remarks>
/// Snell's law keeps s = n sin θ, so a direction is a value of s², common to all media of index above s. The range of s² is cut at the
/// squared index of every medium, where total reflection begins, and each piece has Gauss-Legendre nodes in the cosine of the medium that
/// ends there. Every boundary then maps node to node, and no integrand has its kink inside a piece. Three more nodes of negligible weight
/// carry the directions of instruments: 0, 8 and 45 degrees in air.
/// </remarks>
internal sealed class DirectionGrid
{
    /// <summary>Weight of the instrument directions: enough for a ratio of fluxes, nothing in an integral.</summary>
    public const double NoWeight = 1e-12;

    private static readonly double[] InstrumentDegrees = [0, 8, 45];

    private readonly Dictionary<double, (double[] Cosines, double[] Weights)> _media = [];
    private readonly double[] _squaredSines;

    /// <param name="indices">Indices of all media, in any order, air among them where instruments look in.</param>
    /// <param name="streams">Nodes in the densest medium, shared out by the width of the pieces, at least 2 for each.</param>
    public DirectionGrid(IEnumerable<double> indices, int streams)
    {
        double[] rising = [.. indices.Distinct().OrderBy(index => index)];
        List<double> squaredSines = [.. InstrumentDegrees.Select(Sine).Select(s => s * s)];
        List<(double Index, double Cosine, double Weight)> own = [.. squaredSines.Select(q => (rising[0], Cosine(q, rising[0]), NoWeight))];
        double[] widths = [.. rising.Select((index, i) => i == 0 ? 1 : Cosine(rising[i - 1] * rising[i - 1], index))];
        for (int piece = 0; piece < rising.Length; piece++)
        {
            double index = rising[piece];
            GaussLegendreRule rule = new(0, widths[piece], Math.Max(2, (int)Math.Round(streams * widths[piece] / widths.Sum())));
            for (int i = 0; i < rule.Order; i++)
            {
                double cosine = rule.GetAbscissa(i);
                squaredSines.Add(index * index * (1 - (cosine * cosine)));
                own.Add((index, cosine, rule.GetWeight(i)));
            }
        }

        _squaredSines = [.. squaredSines];
        foreach (double medium in rising)
        {
            double[] cosines = new double[own.Count], weights = new double[own.Count];
            for (int i = 0; i < own.Count; i++)
            {
                if (own[i].Index > medium)
                {
                    // The direction does not exist in this thinner medium.
                    continue;
                }

                // n² μ dμ is the same in all media; in its own medium the cosine is kept as it is, not found anew from the sine.
                cosines[i] = own[i].Index == medium ? own[i].Cosine : Cosine(_squaredSines[i], medium);
                weights[i] = own[i].Weight * own[i].Index * own[i].Index * own[i].Cosine / (medium * medium * cosines[i]);
            }

            _media.Add(medium, (cosines, weights));
        }
    }

    public int Count => _squaredSines.Length;

    /// <summary>Position of an instrument direction.</summary>
    public static int Instrument(double degrees) => Array.IndexOf(InstrumentDegrees, degrees);

    /// <summary>Cosines in a medium; 0 for directions that do not exist there.</summary>
    public double[] Cosines(double index) => _media[index].Cosines;

    /// <summary>Weights of the integral over the cosine, 0 to 1, in a medium.</summary>
    public double[] Weights(double index) => _media[index].Weights;

    private static double Sine(double degrees) => Math.Sin(degrees * Math.PI / 180);

    private static double Cosine(double squaredSine, double index) => Math.Sqrt(Math.Max(0, 1 - (squaredSine / (index * index))));
}
