using CeramicOptics.Colorimetry;

namespace CeramicOptics.Mapping;

/// <summary>A colour as a cubic between equally spaced nodes: Catmull-Rom inside, a parabola at the ends.</summary>
internal sealed class ColorNodes
{
    private readonly Lab[] _nodes;

    // Between two nodes the colour is c0 + c1 f + c2 f² + c3 f³, f from 0 to 1: four coefficients each.
    private readonly Lab[] _cubics;

    /// <param name="nodes">At least three; not copied.</param>
    public ColorNodes(Lab[] nodes)
    {
        int last = nodes.Length - 1;
        (_nodes, _cubics) = (nodes, new Lab[4 * last]);
        for (int i = 0; i < last; i++)
        {
            // Beyond an end the parabola through the three nodes there goes on.
            Lab one = nodes[i], two = nodes[i + 1];
            Lab before = i > 0 ? nodes[i - 1] : Sum(3, one, -3, two, 1, nodes[2], 0, default);
            Lab after = i < last - 1 ? nodes[i + 2] : Sum(3, two, -3, one, 1, nodes[last - 2], 0, default);
            _cubics[4 * i] = one;
            _cubics[(4 * i) + 1] = Sum(-0.5, before, 0, one, 0.5, two, 0, after);
            _cubics[(4 * i) + 2] = Sum(1, before, -2.5, one, 2, two, -0.5, after);
            _cubics[(4 * i) + 3] = Sum(-0.5, before, 1.5, one, -1.5, two, 0.5, after);
        }
    }

    public ReadOnlySpan<Lab> Nodes => _nodes;

    /// <summary>The colour at a place, counted in nodes, 0 to one less than there are.</summary>
    public Lab At(double place)
    {
#if NET
        int whole = double.ConvertToIntegerNative<int>(place);
#else
        int whole = (int)place;
#endif
        int left = Math.Max(0, Math.Min(whole, _nodes.Length - 2));
        ReadOnlySpan<Lab> c = _cubics.AsSpan(4 * left, 4);
        double f = place - left;
        return new Lab(
            (((((c[3].L * f) + c[2].L) * f) + c[1].L) * f) + c[0].L,
            (((((c[3].A * f) + c[2].A) * f) + c[1].A) * f) + c[0].A,
            (((((c[3].B * f) + c[2].B) * f) + c[1].B) * f) + c[0].B);
    }

    private static Lab Sum(double a, Lab one, double b, Lab two, double c, Lab three, double d, Lab four) => new(
        (a * one.L) + (b * two.L) + (c * three.L) + (d * four.L),
        (a * one.A) + (b * two.A) + (c * three.A) + (d * four.A),
        (a * one.B) + (b * two.B) + (c * three.B) + (d * four.B));
}
