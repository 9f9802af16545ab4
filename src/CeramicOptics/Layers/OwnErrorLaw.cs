namespace CeramicOptics.Layers;

/// <summary>
/// A theory's own error of a predicted colour as a function of how much a wall scatters and how far its thickness is
/// from that of the disc which K and S come from.
/// </summary>
/// <remarks>
/// With τ = S t at 550 nm, τd the same of the disc and x = ln(t / td), the root mean square over L*, a*, b* is the root
/// of the sum of squares of Floor + Clear/τ and, for thinner walls, Thin |x|^ThinPower τ^-ThinFall, for thicker ones
/// Thick (1 - exp(-x/ThickReach)) τd^-ThickFall. The last two are multiplied by exp(c (n - 1.53)/0.62), c being
/// ThinIndex or ThickIndex. Fitted to crowns of a simulated laboratory and checked with others (docs/selection.md,
/// tests/reference/own_error.py).
/// </remarks>
internal sealed record OwnErrorLaw
{
    private const double Nm = 550, Index = 1.53, IndexStep = 0.62, ThinnestTau = 0.3, ThinnestMm = 0.05,
        InfiniteMm = 50;

    // Farther from the disc than simulated, the error is that of the farthest simulated.
    private const double Nearest = -2.5, Farthest = 3, SmallestIndex = 1.4, LargestIndex = 2.25;

    // Where the disc is not known: half or twice the wall.
    private const double UnknownDistance = 0.693;

    public required double Floor { get; init; }

    public required double Clear { get; init; }

    public required double Thin { get; init; }

    public required double ThinPower { get; init; }

    public required double ThinFall { get; init; }

    public required double ThinIndex { get; init; }

    public required double Thick { get; init; }

    public required double ThickReach { get; init; }

    public required double ThickFall { get; init; }

    public required double ThickIndex { get; init; }

    /// <summary>Smallest optical thickness of a disc that the law tells from smaller ones.</summary>
    public required double ThinnestDisc { get; init; }

    /// <summary>L*, a*, b* in shares of their root mean square, and the correlation of L* and b*.</summary>
    public required OwnError Axes { get; init; }

    /// <summary>Error of a stack: that of its layers, each with its share of the optical thickness.</summary>
    public OwnError Of(IEnumerable<Layer> layers)
    {
        double sum = 0, whole = 0;
        foreach (Layer layer in layers)
        {
            double tau = Math.Max(1e-6, ScatteringOf(layer.Material) * layer.ThicknessMm);
            (sum, whole) = (sum + (tau * Of(layer.Material, layer.ThicknessMm)), whole + tau);
        }

        double size = sum / whole;
        return new OwnError(size * Axes.L, size * Axes.A, size * Axes.B, Axes.Correlation, Axes.WholeFrom);
    }

    /// <summary>A layer so thick that nothing shows through.</summary>
    public static Layer Infinite(Material material) => new(material, InfiniteMm);

    private double Of(Material material, double wallMm)
    {
        double mm = Math.Max(ThinnestMm, wallMm), distance = double.PositiveInfinity;
        foreach (double disc in material.DiscThicknessesMm)
        {
            double x = Math.Log(mm / disc);
            distance = Math.Abs(x) < Math.Abs(distance) ? x : distance;
        }

        return double.IsInfinity(distance)
            ? Math.Max(At(material, mm, -UnknownDistance), At(material, mm, UnknownDistance))
            : At(material, mm, Math.Min(Farthest, Math.Max(Nearest, distance)));
    }

    private double At(Material material, double mm, double x)
    {
        double tau = Math.Max(ThinnestTau, ScatteringOf(material) * mm);
        double disc = Math.Max(ThinnestDisc, ScatteringOf(material) * mm * Math.Exp(-x));
        double index = Math.Min(
            LargestIndex, Math.Max(SmallestIndex, material.RefractiveIndex.At(material.Grid[Near(material)])));
        index = (index - Index) / IndexStep;
        double away = x < 0
            ? Thin * Math.Pow(-x, ThinPower) * Math.Pow(tau, -ThinFall) * Math.Exp(ThinIndex * index)
            : Thick * (1 - Math.Exp(-x / ThickReach)) * Math.Pow(disc, -ThickFall) * Math.Exp(ThickIndex * index);
        double near = Floor + (Clear / tau);
        return Math.Sqrt((near * near) + (away * away));
    }

    private static double ScatteringOf(Material material) => material.Scattering[Near(material)];

    // The wavelength nearest to 550 nm.
    private static int Near(Material material)
    {
        double at = Math.Round((Nm - material.Grid.StartNm) / material.Grid.StepNm);
        return (int)Math.Min(material.Grid.Count - 1, Math.Max(0, at));
    }
}
