using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Design;

/// <summary>Rows of docs/errors.md about meshes, light that spreads sideways and spots.</summary>
internal static class SpreadBadInput
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 100);
    private static readonly float[] Square = [0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0];
    private static readonly double[] Walls = [1, 1, 1, 1];
    private static readonly Lazy<SpreadMap> Map = new(() => SpreadMap.Compile(Crown, [Tooth, Post]));

    public static IReadOnlyDictionary<string, Action> Cases { get; } = new Dictionary<string, Action>
    {
        ["mesh: coordinate NaN"] = () => MapMesh.FromTriangles([0, 0, 0, 1, float.NaN, 0], []),
        ["mesh: coordinate far away"] = () => MapMesh.FromTriangles([0, 0, 0, 12_000, 0, 0], []),
        ["mesh: coordinates no triples"] = () => MapMesh.FromTriangles([0, 0, 0, 1], []),
        ["mesh: no such point"] = () => MapMesh.FromTriangles(Square, [0, 1, 4]),
        ["mesh: edge of no length"] = () => MapMesh.FromEdges(2, [new MeshEdge(0, 1, double.NaN)]),
        ["mesh: edge to no point"] = () => MapMesh.FromEdges(2, [new MeshEdge(0, 2, 1)]),
        ["spread: no stump"] = () => SpreadMap.Compile(Crown, []),
        ["spread: seventeen stumps"] = () => SpreadMap.Compile(Crown, Enumerable.Repeat(Tooth, 17)),
        ["spread: stump of another grid"] = () => SpreadMap.Compile(
            Crown,
            [Substrate.FromInternalReflectance(
                "other", ReflectanceSpectrum.Uniform(WavelengthGrid.Range(400, 700, 50), 0.5), 1.54)]),
        ["spread: walls too wide"] = () => SpreadMap.Compile(
            Crown with { WallRange = new ThicknessRange(0.3, 20) }, [Tooth]),
        ["spread: stumps by point missing"] = () => Map.Value.Over(Mesh(), Walls, []),
        ["spread: no such stump"] = () => Map.Value.Over(Mesh(), Walls, [0, 1, 2, 0]),
        ["spread: mesh of other length"] = () => Map.Value.Over(Mesh(), [1, 1, 1], [0, 0, 0]),
        ["spread: no such zone"] = () => Map.Value.Over(Mesh(), Walls, [0, 1, 0, 0], [0, 0, 0, 1]),
        ["spread: mesh of edges"] = () => Map.Value.Over(
            MapMesh.FromEdges(4, [new MeshEdge(0, 1, 1)]), Walls, [0, 1, 0, 0]),
        ["spread: answers not as many"] = () => Map.Value.Over(Mesh(), Walls, [0, 1, 0, 0]).Differences(new double[3]),
        ["table for shaders too small"] = () => GpuTable.From(Response(), halfPrecision: true, size: 8),
        ["table for shaders: name of the function"] = () => GpuTableFile.Glsl(
            GpuTable.From(Response(), halfPrecision: true, 16), "wall_color"),
        ["wall: thicknesses not as many"] = () => WallSuggestion.Find(Map.Value.Plain, Mesh(), [1, 1], 0.3),
        ["wall: zones not as many"] = () => WallSuggestion.Find(Map.Value.Plain, Mesh(), Walls, 0.3, [0, 0]),
        ["wall: no such zone"] = () => WallSuggestion.Find(Map.Value.Plain, Mesh(), Walls, 0.3, [0, 0, 1, 0]),
        ["wall: slope"] = () => WallSuggestion.Find(Map.Value.Plain, Mesh(), Walls, 11),
        ["wall: limits not as many"] = () => WallSuggestion.Find(
            Map.Value.Plain, Mesh(), Walls, 0.3, limits: WallLimits.None.WithPoints([1, 1], [])),
        ["wall: no such point of the margin"] = () => WallSuggestion.Find(
            Map.Value.Plain, Mesh(), Walls, 0.3, limits: WallLimits.None.WithMargin([4], 0.2, 1)),
        ["wall: minimum below nothing"] = () => WallLimits.None.WithPoints([0.5, -1], []),
        ["wall: maximum infinite"] = () => WallLimits.None.WithPoints([], [double.PositiveInfinity]),
        ["wall: minimum above maximum"] = () => WallLimits.None.WithPoints([1, 0.8], [double.NaN, 0.5]),
        ["wall: minima and maxima not as many"] = () => WallLimits.None.WithPoints([1], [1, 1]),
        ["wall: edge of the margin NaN"] = () => WallLimits.None.WithMargin([0], double.NaN, 1),
        ["wall: slope of the margin"] = () => WallLimits.None.WithMargin([0], 0.2, -1),
        ["spot too small"] = () => SpotMasking.Find(Crown, Crown.Zones[0], Post, 0.4),
        ["spot radius NaN"] = () => SpotMasking.Find(Crown, Crown.Zones[0], Post, double.NaN),
        ["spot reach beyond the range"] = () => SpotMasking.Find(Crown, Crown.Zones[0], Post, 1).ReachMm(9),
    };

    private static Substrate Tooth =>
        Substrate.FromInternalReflectance("tooth", ReflectanceSpectrum.Uniform(Grid, 0.6), 1.54);

    private static Substrate Post => Substrate.OpaqueMetal("post", ReflectanceSpectrum.Uniform(Grid, 0.2));

    private static Restoration Crown => new(
        [new Zone("body", Tooth, 1, MaskingReference.SelfBacked)], new Ceramic("family", 1, Of(2)),
        new Layer(Of(1), 0.05), ColorCriterion.AcceptabilityThreshold)
    {
        WallRange = new ThicknessRange(0.5, 2),
    };

    private static ThicknessResponse Response() => ThicknessResponse.Compile(Crown, Crown.Zones[0]);

    private static MapMesh Mesh() => MapMesh.FromTriangles(Square, [0, 1, 2, 0, 2, 3]);

    private static Material Of(double scattering) => new(
        "ceramic", TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, 0.1),
        ScatteringSpectrum.Uniform(Grid, scattering), 1.53);
}
