using CeramicOptics.Colorimetry;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Decisions;

/// <summary>Translucency of the layers of a wall alone.</summary>
internal static class WallTranslucency
{
    /// <summary>
    /// TP00 of core and veneer of a restoration, with its liner if there is one; see <see cref="Of"/>.
    /// </summary>
    public static double OfWall(Restoration restoration, double wallMm) => Of(
        restoration.LayersOf(wallMm).Where(item => item.Role is LayerRole.Veneer or LayerRole.Core or LayerRole.Liner)
            .Select(item => item.Layer),
        restoration.Viewing.Geometry);

    /// <summary>TP00 over ideal black and white in optical contact, D65 and 2 degrees.</summary>
    public static double Of(
        IEnumerable<Layer> layers, MeasurementGeometry geometry = MeasurementGeometry.DiffuseSpecularIncluded)
    {
        LayerStack overBlack = new(layers, Substrate.Black);
        return Translucency.Parameter00(
            Colorimeter.D65TwoDegree.ToLab(overBlack.Reflectance(geometry)),
            Colorimeter.D65TwoDegree.ToLab(overBlack.WithSubstrate(Substrate.White).Reflectance(geometry)));
    }
}
