using BenchmarkDotNet.Attributes;
using CeramicOptics.Colorimetry.Differences;
using CeramicOptics.Layers;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Benchmarks;

/// <summary>
/// Suggested walls over a square lattice of a million points, three million edges and three zones. The baseline looks
/// once along every edge of the mesh, the least that any such field needs.
/// </summary>
[MemoryDiagnoser]
public class SuggestionBenchmarks
{
    private const int Side = 1000, Few = 100;
    private const double Slope = 0.1;
    private const float StepMm = 0.01f;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Range(400, 700, 20);

    private readonly double[] _roomMm = new double[Side * Side];
    private readonly byte[] _zones = new byte[Side * Side], _others;
    private readonly MapMesh _mesh;
    private readonly ThicknessMap _map, _darker, _lighter;
    private readonly WallLimits _margin, _room;
    private readonly WallSuggestion _previous;

    public SuggestionBenchmarks()
    {
        float[] positionsMm = new float[3 * Side * Side];
        List<int> triangles = [];
        Random random = new(1);
        for (int i = 0; i < Side * Side; i++)
        {
            (int x, int y) = (i % Side, i / Side);
            (positionsMm[3 * i], positionsMm[(3 * i) + 1]) = (x * StepMm, y * StepMm);
            (_zones[i], _roomMm[i]) = ((byte)(3 * y / Side), 0.4 + random.NextDouble());
            if (x < Side - 1 && y < Side - 1)
            {
                triangles.AddRange([i, i + 1, i + Side + 1, i, i + Side + 1, i + Side]);
            }
        }

        _others = (byte[])_zones.Clone();
        _others.AsSpan(600 * Side, Few).Clear();
        _mesh = MapMesh.FromTriangles(positionsMm, [.. triangles]);
        ThicknessResponse[] zones = [.. ((double[])[0.1, 0.3, 0.45, 0.05, 0.2]).Select(Compile)];
        _map = new ThicknessMap(zones.Take(3));
        (_darker, _lighter) = (
            new ThicknessMap([zones[3], zones[1], zones[2]]), new ThicknessMap([zones[4], zones[1], zones[2]]));
        _margin = WallLimits.None.WithMargin([.. Enumerable.Range(0, Side)], 0.2, 1);
        _room = WallLimits.None.WithPoints([], _roomMm);
        _previous = ThreeZones();
    }

    [Benchmark(Baseline = true)]
    public double LookAlongEachEdge()
    {
        double most = 0;
        ReadOnlySpan<double> walls = _roomMm;
        for (int i = 0; i < walls.Length; i++)
        {
            for (int k = _mesh.First[i]; k < _mesh.First[i + 1]; k++)
            {
                most = Math.Max(most, walls[_mesh.Neighbours[k]] - (Slope * _mesh.LengthsMm[k]) - walls[i]);
            }
        }

        return most;
    }

    [Benchmark]
    public WallSuggestion ThreeZones() => WallSuggestion.Find(_map, _mesh, _roomMm, Slope, _zones);

    [Benchmark]
    public WallSuggestion DarkerStumpWithPrevious() =>
        WallSuggestion.Find(_darker, _mesh, _roomMm, Slope, _zones, previous: _previous);

    [Benchmark]
    public WallSuggestion LighterStumpWithPrevious() =>
        WallSuggestion.Find(_lighter, _mesh, _roomMm, Slope, _zones, previous: _previous);

    [Benchmark]
    public WallSuggestion FewPointsWithPrevious() =>
        WallSuggestion.Find(_map, _mesh, _roomMm, Slope, _others, previous: _previous);

    [Benchmark]
    public WallSuggestion Margin() => WallSuggestion.Find(_map, _mesh, _roomMm, Slope, _zones, limits: _margin);

    [Benchmark]
    public WallSuggestion MaximumAtEachPoint() =>
        WallSuggestion.Find(_map, _mesh, _roomMm, Slope, _zones, limits: _room);

    private static ThicknessResponse Compile(double stump)
    {
        Restoration crown = new(
            [new Zone($"stump {stump}", Substrate.FromMeasuredReflectance(
                $"stump {stump}", ReflectanceSpectrum.Uniform(Grid, stump), 1.54,
                MeasurementGeometry.DiffuseSpecularIncluded, area: ReadingArea.Large), 1,
                MaskingReference.SelfBacked)],
            new Ceramic("invented", 1, Uniform("ceramic", 0.1, 8, 1.55)) { Strength = StrengthLimit.Of(0.5) },
            new Layer(Uniform("cement", 0.03, 0.9, 1.52), 0.05),
            ColorCriterion.AcceptabilityThreshold);
        return ThicknessResponse.Compile(crown, crown.Zones[0]);
    }

    private static Material Uniform(string name, double absorption, double scattering, double index) => new(
        name, TwoFluxModel.Instance, AbsorptionSpectrum.Uniform(Grid, absorption),
        ScatteringSpectrum.Uniform(Grid, scattering), index, CoefficientUncertainty.OfScale(Grid, 0.03));
}
