using MathNet.Numerics.Integration;

namespace CeramicOptics.Layers.Transport;

/// <summary>
/// Directions of light that refract into each other through a stack of media, with their weights in each medium.
/// </summary>
/// <remarks>
/// Snell's law keeps s = n sin θ, so a direction is a value of s², common to all media of index above s. The range of
/// s² is cut at the squared index of every medium, where total reflection begins, and each piece has Gauss-Legendre
/// nodes over the cosine of the medium that ends there, as μ = width · x (a + (1 - a) x): closer together near grazing,
/// where light changes fast with depth. Every boundary then maps node to node, and no integrand has its kink inside a
/// piece. Directions are sorted by s², so those of a medium are the first ones. Instruments add directions of
/// negligible weight.
/// </remarks>
internal sealed class DirectionGrid
{
    // Weight of the directions of instruments. It disturbs integrals by about itself. Rounding of a reading between two
    // of them is about 1e-16 divided by it, of a reading between one and diffuse light 1e-16 divided by its root.
    private const double WeightOfTwo = 1e-8, WeightOfOne = 1e-12;

    // Found by trial: shares by the root of the width, a = 1/4 and 4 nodes in the narrowest piece give a twentieth of
    // the error of shares by the width, a = 1 and 2 nodes, at 24 streams. The least count grows with the streams, so
    // that twice as many are finer everywhere.
    private const double Linear = 0.25;

    // Media whose indices differ by less count as one: between their angles of total reflection lie only directions so
    // near grazing that rounding would be all there is of their cosines. It changes a reflectance by about as much.
    private const double LeastDifference = 1e-6;

    private readonly double[] _indices;
    private readonly MediumDirections[] _media;
    private readonly double[] _instrumentDegrees;
    private readonly int[] _instruments;

    /// <param name="indices">
    /// Indices of all media, in any order; air among them where instruments look in at an angle.
    /// </param>
    /// <param name="streams">
    /// Nodes in the densest medium, shared out by the root of the width of the pieces, at least 2 and a twelfth of the
    /// streams for each.
    /// </param>
    /// <param name="instrumentDegrees">Directions of instruments, in the thinnest medium.</param>
    public DirectionGrid(IEnumerable<double> indices, int streams, params double[] instrumentDegrees)
    {
        _indices = Distinct(indices);
        _instrumentDegrees = instrumentDegrees;
        double thinnest = _indices[0];
        double[] widths = [.. _indices.Select(
            (index, i) => i == 0 ? 1 : Cosine(_indices[i - 1] * _indices[i - 1], index))];
        double all = widths.Sum(Math.Sqrt);
        List<Node> nodes = [];
        for (int piece = 0; piece < _indices.Length; piece++)
        {
            int count = Math.Max(2 + (streams / 12), (int)Math.Round(streams * Math.Sqrt(widths[piece]) / all));
            nodes.AddRange(Nodes(_indices[piece], widths[piece], count));
        }

        double noWeight = instrumentDegrees.Length > 1 ? WeightOfTwo : WeightOfOne;
        double[] instruments = [.. instrumentDegrees.Select(degrees => SquaredSine(degrees, thinnest))];
        foreach (double squaredSine in instruments.Distinct())
        {
            // A quadrature node that lies there serves as it is.
            if (!nodes.Exists(node => Math.Abs(node.SquaredSine - squaredSine) < 1e-9))
            {
                nodes.Add(new Node(squaredSine, thinnest, Cosine(squaredSine, thinnest), noWeight));
            }
        }

        Node[] sorted = [.. nodes.OrderBy(node => node.SquaredSine)];
        Amplitudes = [.. sorted.Select(node => node.Index * Math.Sqrt(node.Weight * node.Cosine))];
        _media = [.. _indices.Select(index => Medium(index, sorted))];
        _instruments = [.. instruments.Select(squaredSine => Nearest(sorted, squaredSine))];
    }

    /// <summary>Number of directions in the densest medium.</summary>
    public int Count => Amplitudes.Length;

    /// <summary>n sqrt(w μ) of each direction, the same in all media in which it exists.</summary>
    public double[] Amplitudes { get; }

    /// <summary>The directions that exist in a medium: one object for media that count as one.</summary>
    public MediumDirections In(double index)
    {
        int medium = _indices.Length - 1;
        while (_indices[medium] > index)
        {
            medium--;
        }

        return _media[medium];
    }

    /// <summary>Root of the sum of the squared amplitudes of a medium's directions.</summary>
    public double Norm(double index)
    {
        int count = In(index).Count;
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            sum += Amplitudes[i] * Amplitudes[i];
        }

        return Math.Sqrt(sum);
    }

    /// <summary>
    /// Share of a direction in a light or a detector. Lambertian light (null) has the shape itself; light in one
    /// direction has all its flux, and a detector sees its radiance, there.
    /// </summary>
    public double Share(double? degrees, int direction, double shape) =>
        degrees is not double angle ? shape : direction == Instrument(angle) ? 1 / shape : 0;

    /// <summary>True when the direction is one of an instrument only, with no weight in integrals.</summary>
    public bool IsOfInstrument(int direction) => !Integrates(Densest.Weights[direction]);

    /// <summary>True for the weight of a quadrature node; directions of instruments carry far smaller ones.</summary>
    public static bool Integrates(double weight) => weight > 1e-7;

    /// <summary>The medium in which all directions exist.</summary>
    public MediumDirections Densest => _media[_media.Length - 1];

    /// <summary>Position of an instrument's direction.</summary>
    public int Instrument(double degrees) => _instruments[Array.IndexOf(_instrumentDegrees, degrees)];

    /// <summary>True when the grid was made for these media and instruments.</summary>
    public bool IsFor(IEnumerable<double> indices, double[] instrumentDegrees) =>
        _indices.SequenceEqual(Distinct(indices)) && _instrumentDegrees.SequenceEqual(instrumentDegrees);

    private static double[] Distinct(IEnumerable<double> indices)
    {
        List<double> distinct = [];
        foreach (double index in indices.OrderBy(index => index))
        {
            if (distinct.Count == 0 || index - distinct[distinct.Count - 1] > LeastDifference)
            {
                distinct.Add(index);
            }
        }

        return [.. distinct];
    }

    private static IEnumerable<Node> Nodes(double index, double width, int count)
    {
        GaussLegendreRule rule = new(0, 1, count);
        for (int i = 0; i < count; i++)
        {
            double x = rule.GetAbscissa(i), cosine = width * x * (Linear + ((1 - Linear) * x));
            double weight = rule.GetWeight(i) * width * (Linear + (2 * (1 - Linear) * x));
            yield return new Node(index * index * (1 - (cosine * cosine)), index, cosine, weight);
        }
    }

    private static MediumDirections Medium(double index, Node[] sorted)
    {
        Node[] own = [.. sorted.TakeWhile(node => node.Index <= index)];
        double[] cosines = new double[own.Length], weights = new double[own.Length];
        for (int i = 0; i < own.Length; i++)
        {
            // n² μ dμ is the same in all media; in its own medium the cosine is kept as it is, not found again from the
            // sine.
            Node node = own[i];
            cosines[i] = node.Index == index ? node.Cosine : Cosine(node.SquaredSine, index);
            weights[i] = node.Weight * node.Index * node.Index * node.Cosine / (index * index * cosines[i]);
        }

        return new MediumDirections(cosines, weights);
    }

    private static int Nearest(Node[] sorted, double squaredSine)
    {
        int nearest = 0;
        for (int i = 1; i < sorted.Length; i++)
        {
            double distance = Math.Abs(sorted[i].SquaredSine - squaredSine);
            nearest = distance < Math.Abs(sorted[nearest].SquaredSine - squaredSine) ? i : nearest;
        }

        return nearest;
    }

    private static double SquaredSine(double degrees, double index)
    {
        double sine = index * Math.Sin(degrees * Math.PI / 180);
        return sine * sine;
    }

    private static double Cosine(double squaredSine, double index) =>
        Math.Sqrt(Math.Max(0, 1 - (squaredSine / (index * index))));

    private readonly record struct Node(double SquaredSine, double Index, double Cosine, double Weight);
}
