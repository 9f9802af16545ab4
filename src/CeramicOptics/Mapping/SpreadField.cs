using System.Numerics;
using System.Text.Json.Serialization;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Mapping.Spreading;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping;

/// <summary>A surface with its light spread: differences, statuses and colours of its points.</summary>
/// <remarks>
/// Made by <see cref="SpreadMap.Over"/>. A NaN thickness, or one outside the range of the map, gives NaN. Methods
/// allocate nothing that grows with the points. Immutable and safe to share.
/// </remarks>
[JsonConverter(typeof(ReportConverter))]
public sealed class SpreadField : Answer
{
    private readonly MapMesh _mesh;
    private readonly SpreadSolver _solver;
    private readonly double[] _thicknessesMm;
    private readonly byte[] _stumps, _zones;

    internal SpreadField(
        SpreadMap map, MapMesh mesh, ReadOnlySpan<double> thicknessesMm, ReadOnlySpan<byte> stumps,
        ReadOnlySpan<byte> zones, IProgress<double>? progress, CancellationToken cancellation)
        : base([])
    {
        if (!mesh.HasPositions)
        {
            throw new ArgumentException(
                "mesh was made from edges; a mesh of triangles is needed.", nameof(mesh));
        }

        (Map, _mesh) = (map, mesh);
        _mesh.RequireLength(thicknessesMm.Length, nameof(thicknessesMm));
        _mesh.RequireLength(stumps.Length, nameof(stumps));
        if (!zones.IsEmpty)
        {
            _mesh.RequireLength(zones.Length, nameof(zones));
        }

        for (int i = 0; i < stumps.Length; i++)
        {
            if (stumps[i] >= map.Stumps.Count)
            {
                Guard.InRange(stumps[i], 0, map.Stumps.Count - 1, $"stump of point {Guard.Text(i)}");
            }

            map.Plain.ZoneOf(zones, i);
        }

        (_thicknessesMm, _stumps, _zones) = (thicknessesMm.ToArray(), stumps.ToArray(), zones.ToArray());
        for (int i = 0; i < _thicknessesMm.Length; i++)
        {
            _thicknessesMm[i] = SinglePrecision.Inside(map.Range, _thicknessesMm[i]);
        }

        SurfaceLevel[] levels = mesh.LevelsFor(cancellation);
        _solver = new SpreadSolver(
            levels, map.Kernels, new SpreadPatches(levels, mesh.Vertices, map.Kernels, _thicknessesMm, stumps),
            progress, cancellation);
    }

    /// <summary>The map.</summary>
    internal SpreadMap Map { get; }

    /// <summary>
    /// Cautions that must be shown with the answers: those of the map, and whether the mesh is coarse beside a rim.
    /// </summary>
    /// <remarks>
    /// Coarse where half the largest step of colour across a rim is above a quarter of the criterion's limit. Looks at
    /// all neighbours; keep the answer.
    /// </remarks>
    public override IReadOnlyList<Caution> Cautions
    {
        get
        {
            double error = LargestStepAcrossRims() / 2;
            return Guard.Copy(Map.Cautions.Concat(error > Map.Plain.Zones[0].Requirement.Criterion.Limit / 4
                ? [new Caution(CautionKind.CoarseMesh, value: Guard.RoundedUp(error, 1))]
                : []));
        }
    }

    /// <summary>Number of points.</summary>
    internal int PointCount => _stumps.Length;

    internal ReadOnlySpan<double> ThicknessesMm => _thicknessesMm;

    internal ReadOnlySpan<byte> StumpOfPoint => _stumps;

    internal ReadOnlySpan<byte> ZoneOfPoint => _zones;

    /// <summary>Largest difference over illuminants at each point from the reference of its zone.</summary>
    /// <param name="destination">Receives one difference for each point; NaN where there is no answer.</param>
    /// <exception cref="ArgumentException">The length is not the number of points.</exception>
    public void Differences(Span<double> destination)
    {
        _mesh.RequireLength(destination.Length, nameof(destination));
        Span<Vector4> shares = stackalloc Vector4[Map.Stumps.Count];
        Span<Lab> colors = stackalloc Lab[Map.Colors.Lights], references = stackalloc Lab[Map.Colors.Lights];
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = DifferenceAt(i, shares, colors, references, out _);
        }
    }

    /// <summary>Whether the stump is masked at each point, or why that is not known.</summary>
    /// <param name="destination">Receives one status for each point.</param>
    /// <exception cref="ArgumentException">The length is not the number of points.</exception>
    /// <remarks>
    /// Where a stump that is not the zone's is within reach, no reliable thickness is known, and a point that is masked
    /// is <see cref="PointStatus.MaskedByColorOnly"/>.
    /// </remarks>
    public void Statuses(Span<PointStatus> destination)
    {
        _mesh.RequireLength(destination.Length, nameof(destination));
        Span<Vector4> shares = stackalloc Vector4[Map.Stumps.Count];
        Span<Lab> colors = stackalloc Lab[Map.Colors.Lights], references = stackalloc Lab[Map.Colors.Lights];
        for (int i = 0; i < destination.Length; i++)
        {
            double difference = DifferenceAt(i, shares, colors, references, out bool isPlain);
            ThicknessResponse zone = Map.Plain.ZoneOf(_zones, i);
            destination[i] = isPlain
                ? zone.Statuses.At(_thicknessesMm[i])
                : zone.StatusOf(_thicknessesMm[i], difference);
        }
    }

    /// <summary>Colour at each point under the first illuminant.</summary>
    /// <param name="destination">Receives one colour for each point; NaN in all three where there is no answer.</param>
    /// <exception cref="ArgumentException">The length is not the number of points.</exception>
    public void Colors(Span<Lab> destination)
    {
        _mesh.RequireLength(destination.Length, nameof(destination));
        Span<Vector4> shares = stackalloc Vector4[Map.Stumps.Count];
        for (int i = 0; i < destination.Length; i++)
        {
            destination[i] = ColorAt(i, shares);
        }
    }

    /// <summary>Display colour at each point, as <see cref="ThicknessMap.DisplayColors"/> has it.</summary>
    /// <param name="destination">Receives one colour for each point, not clipped; NaN in all three where there is no
    /// answer.</param>
    /// <exception cref="ArgumentException">The length is not the number of points.</exception>
    public void DisplayColors(Span<Srgb> destination)
    {
        _mesh.RequireLength(destination.Length, nameof(destination));
        Span<Vector4> shares = stackalloc Vector4[Map.Stumps.Count];
        Xyz white = Colorimeter.D65TwoDegree.White;
        for (int i = 0; i < destination.Length; i++)
        {
            Lab color = ColorAt(i, shares);
            destination[i] = double.IsNaN(color.L)
                ? new Srgb(double.NaN, double.NaN, double.NaN)
                : Srgb.FromXyz(color.ToXyz(white));
        }
    }

    /// <summary>How many points have which status; computes those of all points.</summary>
    private protected override string InWords(Language language)
    {
        PointStatus[] statuses = new PointStatus[PointCount];
        Statuses(statuses);
        int[] counts = new int[(int)PointStatus.AboveRange + 1];
        foreach (PointStatus status in statuses)
        {
            counts[(int)status]++;
        }

        return language.Text(
            "SpreadField", PointCount, counts[(int)PointStatus.MaskedReliably],
            counts[(int)PointStatus.MaskedByColorOnly], counts[(int)PointStatus.Shows],
            counts[(int)PointStatus.BelowStructuralMinimum], counts.Skip((int)PointStatus.NoData).Sum());
    }

    // True when the point shows nothing but the stump of its zone.
    private bool IsPlain(int point, Span<Vector4> shares)
    {
        int stump = _stumps[point];
        if (_solver.SharesAt(
            point, _mesh.Vertices[point].Position, _thicknessesMm[point], stump, shares))
        {
            return false;
        }

        shares.Clear();
        shares[stump] = Vector4.One;
        return ReferenceEquals(Map.Stumps[stump], Map.Zones[ZoneAt(point)].Stump);
    }

    // Between neighbours over different stumps that both have a colour.
    private double LargestStepAcrossRims()
    {
        double largest = 0;
        Span<Vector4> shares = stackalloc Vector4[Map.Stumps.Count];
        for (int i = 0; i < _stumps.Length; i++)
        {
            for (int k = _mesh.First[i]; k < _mesh.First[i + 1]; k++)
            {
                int other = _mesh.Neighbours[k];
                if (other > i && _stumps[other] != _stumps[i])
                {
                    Lab one = ColorAt(i, shares), two = ColorAt(other, shares);
                    double step = double.IsNaN(one.L) || double.IsNaN(two.L) ? 0
                        : Map.Plain.ZoneOf(_zones, i).Requirement.Criterion.Difference(one, two);
                    largest = Math.Max(step, largest);
                }
            }
        }

        return largest;
    }

    private int ZoneAt(int point) => _zones.Length == 0 ? 0 : _zones[point];

    private Lab ColorAt(int point, Span<Vector4> shares)
    {
        double mm = _thicknessesMm[point];
        return !Map.Range.Contains(mm) ? new Lab(double.NaN, double.NaN, double.NaN)
            : IsPlain(point, shares) ? Map.Plain.ZoneOf(_zones, point).ColorUnchecked(mm)
            : Map.Colors.LabAt(mm, 0, _stumps[point], shares);
    }

    private double DifferenceAt(
        int point, Span<Vector4> shares, Span<Lab> colors, Span<Lab> references, out bool isPlain)
    {
        double mm = _thicknessesMm[point];
        isPlain = true;
        if (!Map.Range.Contains(mm))
        {
            return double.NaN;
        }

        int zone = ZoneAt(point);
        ThicknessResponse plain = Map.Plain.ZoneOf(_zones, point);
        isPlain = IsPlain(point, shares);
        if (isPlain)
        {
            return plain.DifferenceOrNone(mm);
        }

        for (int c = 0; c < colors.Length; c++)
        {
            colors[c] = Map.Colors.LabAt(mm, c, _stumps[point], shares);
            references[c] = Map.Colors.ReferenceAt(mm, c, zone);
        }

        return ZoneComparison.Largest(plain.Requirement.Criterion, references, colors, out _);
    }
}
