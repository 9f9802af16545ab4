using CeramicOptics.Layers;

namespace CeramicOptics.Exchange;

/// <summary>The words by which files name geometries and coupling media.</summary>
internal static class GeometryNames
{
    private static readonly (string Name, MeasurementGeometry Geometry)[] Geometries =
    [
        ("di:8", MeasurementGeometry.DiffuseSpecularIncluded),
        ("de:8", MeasurementGeometry.DiffuseSpecularExcluded),
        ("45:0", MeasurementGeometry.FortyFiveZero),
        ("0:45", MeasurementGeometry.ZeroFortyFive),
        ("d:d", MeasurementGeometry.DiffuseDiffuse),
        ("internal", MeasurementGeometry.Internal),
    ];

    public static IEnumerable<string> OfGeometries => Geometries.Select(pair => pair.Name);

    public static IEnumerable<string> OfCouplings { get; } = ["air", "water", "glycerine", "contact"];

    public static MeasurementGeometry Geometry(string name)
    {
        foreach ((string known, MeasurementGeometry geometry) in Geometries)
        {
            if (known == name)
            {
                return geometry;
            }
        }

        throw new ArgumentException(
            $"geometry '{name}' is unknown; allowed: {string.Join(", ", OfGeometries)}.");
    }

    public static string Name(MeasurementGeometry geometry) =>
        Array.Find(Geometries, pair => pair.Geometry == geometry).Name;

    public static CouplingMedium? Coupling(string name) => name switch
    {
        "air" => CouplingMedium.Air,
        "water" => CouplingMedium.Water,
        "glycerine" => CouplingMedium.Glycerine,
        "contact" => null,
        _ => throw new ArgumentException($"coupling '{name}' is unknown; allowed: {string.Join(", ", OfCouplings)}."),
    };
}
