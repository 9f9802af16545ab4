using System.Numerics;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Comparison;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>Colours of a wall over each stump by band, and the references of the zones, as straight lines over its
/// thickness.</summary>
/// <remarks>Tristimulus values over a stump are those over a black one of its index plus what the stump adds, band by
/// band, so that a share of the stump adds the share of it. Immutable.</remarks>
internal sealed class SpreadColors
{
    private const int Steps = 1024, Axes = 3;

    // By step, then light, then stump, then X, Y, Z: what the stump adds, and over black.
    private readonly Vector4[] _added;
    private readonly Vector3[] _black;

    // By zone, then step, then light.
    private readonly Lab[][] _references;
    private readonly Xyz[] _whites;
    private readonly int _stumps;
    private readonly ThicknessRange _range;
    private readonly double _perMm;

    public SpreadColors(
        CompiledWall wall, IReadOnlyList<ZoneComparison> zones, IReadOnlyList<Substrate> stumps, SpreadBands bands,
        CancellationToken cancellation)
    {
        IReadOnlyList<WeightingTable> tables = zones[0].Tables;
        (_stumps, _range) = (stumps.Count, wall.Range);
        _perMm = Steps / (_range.MaxMm - _range.MinMm);
        _whites = [.. tables.Select(table => table.White)];
        _black = new Vector3[(Steps + 1) * Lights * _stumps];
        _added = new Vector4[Axes * _black.Length];
        int n = bands.Grid.Count;
        double[] mm = [.. Enumerable.Range(0, Steps + 1).Select(step => _range.At(step / (double)Steps))];
        double[] over = new double[mm.Length * n], black = new double[over.Length];
        for (int s = 0; s < _stumps; s++)
        {
            StackResponse response = wall.Over(stumps[s]);
            response.Reflectance(mm, stumps[s], over);
            response.Reflectance(mm, stumps[s].Shifted(-1), black);
            for (int step = 0; step <= Steps; step++)
            {
                cancellation.ThrowIfCancellationRequested();
                for (int c = 0; c < Lights; c++)
                {
                    Put(
                        (((step * Lights) + c) * _stumps) + s, tables[c], bands, over.AsSpan(step * n, n),
                        black.AsSpan(step * n, n));
                }
            }
        }

        _references = [.. zones.Select(ReferencesOf)];
    }

    /// <summary>Number of lights.</summary>
    public int Lights => _whites.Length;

    /// <summary>Tristimulus values under one light.</summary>
    /// <param name="thicknessMm">Thickness inside the range, mm.</param>
    /// <param name="light">Number of the light.</param>
    /// <param name="stump">The stump below the point.</param>
    /// <param name="shares">Share by which each stump shows, by band.</param>
    public Xyz At(double thicknessMm, int light, int stump, ReadOnlySpan<Vector4> shares)
    {
        (int step, float along) = Place(thicknessMm);
        int one = ((step * Lights) + light) * _stumps, two = one + (Lights * _stumps);
        Vector3 sum = Vector3.Lerp(_black[one + stump], _black[two + stump], along);
        for (int s = 0; s < shares.Length; s++)
        {
            ReadOnlySpan<Vector4> left = _added.AsSpan(Axes * (one + s), Axes);
            ReadOnlySpan<Vector4> right = _added.AsSpan(Axes * (two + s), Axes);
            Vector4 share = shares[s];
            sum += new Vector3(
                Vector4.Dot(share, Vector4.Lerp(left[0], right[0], along)),
                Vector4.Dot(share, Vector4.Lerp(left[1], right[1], along)),
                Vector4.Dot(share, Vector4.Lerp(left[2], right[2], along)));
        }

        return new Xyz(Math.Max(0, sum.X), Math.Max(0, sum.Y), Math.Max(0, sum.Z));
    }

    /// <summary>Colour under one light.</summary>
    public Lab LabAt(double thicknessMm, int light, int stump, ReadOnlySpan<Vector4> shares) =>
        Lab.FromXyz(At(thicknessMm, light, stump, shares), _whites[light]);

    /// <summary>What the colour is compared with in a zone.</summary>
    public Lab ReferenceAt(double thicknessMm, int light, int zone)
    {
        (int step, float along) = Place(thicknessMm);
        Lab one = _references[zone][(step * Lights) + light], two = _references[zone][((step + 1) * Lights) + light];
        return new Lab(
            one.L + (along * (two.L - one.L)), one.A + (along * (two.A - one.A)), one.B + (along * (two.B - one.B)));
    }

    private (int Step, float Along) Place(double thicknessMm)
    {
        double at = (thicknessMm - _range.MinMm) * _perMm;
        int step = Math.Min(Steps - 1, (int)at);
        return (step, (float)(at - step));
    }

    private void Put(
        int place, WeightingTable table, SpreadBands bands, ReadOnlySpan<double> over, ReadOnlySpan<double> black)
    {
        Xyz none = table.SumInLanes(black);
        _black[place] = new Vector3((float)none.X, (float)none.Y, (float)none.Z);
        Span<double> part = stackalloc double[over.Length];
        Span<float> values = stackalloc float[Axes * SpreadBands.Count];
        for (int b = 0; b < SpreadBands.Count; b++)
        {
            for (int i = 0; i < part.Length; i++)
            {
                part[i] = bands.Share(b, i) * (over[i] - black[i]);
            }

            Xyz added = table.SumInLanes(part);
            (values[b], values[SpreadBands.Count + b], values[(2 * SpreadBands.Count) + b]) = (
                (float)added.X, (float)added.Y, (float)added.Z);
        }

        for (int axis = 0; axis < Axes; axis++)
        {
            ReadOnlySpan<float> own = values.Slice(axis * SpreadBands.Count, SpreadBands.Count);
            _added[(Axes * place) + axis] = new Vector4(own[0], own[1], own[2], own[3]);
        }
    }

    private Lab[] ReferencesOf(ZoneComparison zone)
    {
        Lab[] references = new Lab[(Steps + 1) * Lights], colors = new Lab[Lights];
        for (int step = 0; step <= Steps; step++)
        {
            zone.Evaluate(_range.At(step / (double)Steps), colors, references.AsSpan(step * Lights, Lights));
        }

        return references;
    }
}
