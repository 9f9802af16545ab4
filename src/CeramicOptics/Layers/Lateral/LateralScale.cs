namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// Brings responses found with few directions to an exact plane-parallel solution at k = 0, and leaves what returns
/// where it entered.
/// </summary>
/// <remarks>
/// Few directions are off by about 1 %, nearly the same share at all frequencies; what returns at once, at infinity,
/// has no such error.
/// </remarks>
internal sealed class LateralScale(LateralResponse coarse, LateralResponse local, SubstrateResponse exact)
{
    private readonly double _exchange = Ratio(exact.Exchange, coarse.Down * coarse.Up, 0);
    private readonly double _own = Ratio(exact.Own, coarse.Own, local.Own);
    private readonly double _return = Ratio(exact.Return, coarse.Return, local.Return);

    /// <summary>The response with few directions at k = 0.</summary>
    public LateralResponse Coarse { get; } = coarse;

    /// <summary>The same at infinity.</summary>
    public LateralResponse Local { get; } = local;

    public LateralResponse Apply(LateralResponse response) => new(
        Local.Own + ((response.Own - Local.Own) * _own),
        response.Down * Math.Sqrt(_exchange),
        response.Up * Math.Sqrt(_exchange),
        Local.Return + ((response.Return - Local.Return) * _return));

    private static double Ratio(double exact, double coarse, double local) =>
        coarse - local > 1e-9 && exact > local ? (exact - local) / (coarse - local) : 1;
}
