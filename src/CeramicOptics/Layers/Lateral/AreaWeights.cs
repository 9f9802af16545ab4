using CeramicOptics.Layers.Transport;

namespace CeramicOptics.Layers.Lateral;

/// <summary>
/// Readings of areas as weights of lateral responses, kept for each area: on discs the last one, elsewhere the only
/// one.
/// </summary>
internal sealed class AreaWeights
{
    private readonly Dictionary<ReadingArea, (double BeyondMm, CircularReading Reading)> _known = [];

    /// <summary>The weights of an area with a window.</summary>
    /// <param name="area">Spot and window, and disc where its side matters.</param>
    /// <param name="absorptionPerMm">K of the specimen, 1/mm.</param>
    /// <param name="scatteringPerMm">S of the specimen, 1/mm.</param>
    /// <param name="index">Refractive index of the specimen.</param>
    public CircularReading For(ReadingArea area, double absorptionPerMm, double scatteringPerMm, double index)
    {
        double spot = area.SpotRadiusMm!.Value, window = area.WindowRadiusMm!.Value, beyond = 0;
        if (area.Side is DiscSide side)
        {
            TransportLayer own = TransportLayer.FromTwoFlux(absorptionPerMm, scatteringPerMm, 0, 1, 1);
            beyond = own.AbsorptionPerMm + own.ScatteringPerMm > 0
                ? CircularReading.BeyondSide(own.AbsorptionPerMm, own.ScatteringPerMm, ReturnOf(side, index))
                : double.PositiveInfinity;
        }

        if (!_known.TryGetValue(area, out (double BeyondMm, CircularReading Reading) known) || known.BeyondMm != beyond)
        {
            known = (beyond, area.DiscRadiusMm is double disc
                ? CircularReading.OnDisc(spot, window, disc, beyond)
                : CircularReading.OnWideSpecimen(spot, window));
            _known[area] = known;
        }

        return known.Reading;
    }

    private static double ReturnOf(DiscSide side, double index) => side switch
    {
        DiscSide.Absorbing => 0,
        DiscSide.Reflecting => 1,
        _ => Boundary.Diffuse(index, 1).ReflectanceFromAbove,
    };
}
