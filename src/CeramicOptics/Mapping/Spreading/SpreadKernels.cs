using System.Numerics;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Lateral;
using CeramicOptics.Restorations;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>How far light spreads sideways in the wall of a restoration, by its thickness, in four bands.</summary>
/// <remarks>
/// Two responses of the compiled wall are taken apart into the kernels of <see cref="SpreadLadder"/>: Up, by which
/// light from the stump reaches the surface, and Return, by which it comes back to the stump. Both are solved at
/// thicknesses evenly spaced in their logarithm and interpolated between them. Each property is a table over evenly
/// spaced thicknesses, the four bands in one vector. Immutable.
/// </remarks>
internal sealed class SpreadKernels
{
    private const int Steps = 1024, PerKernel = SpreadLadder.Count + 1;

    private const double NodeRatio = 1.25, Negligible = 5e-3;

    // By step, then kernel, the part that stays where it is last.
    private readonly Vector4[] _up, _returned;
    private readonly Vector4[] _internal;
    private readonly double _perMm;

    public SpreadKernels(
        Restoration restoration, IReadOnlyList<Substrate> stumps, ThicknessRange range, SpreadBands bands,
        Action<double> progress, CancellationToken cancellation)
    {
        Range = range;
        int nodes = 2 + (int)(Math.Log(range.MaxMm / range.MinMm) / Math.Log(NodeRatio));
        double[] nodesMm = [.. Enumerable.Range(0, nodes).Select(
            j => range.MinMm * Math.Pow(range.MaxMm / range.MinMm, j / (nodes - 1.0)))];
        Vector4[] up = new Vector4[nodes * PerKernel], returned = new Vector4[up.Length];
        LayerStack stack = restoration.StackOver(stumps[0], range.MaxMm);
        LateralSampler sampler = UnknownAnisotropy.SamplerFor(stack, restoration.Viewing.Geometry);
        for (int j = 0; j < nodes; j++)
        {
            double[] layersMm = [.. restoration.LayersOf(nodesMm[j]).Select(item => item.Layer.ThicknessMm)];
            for (int b = 0; b < SpreadBands.Count; b++)
            {
                LateralResponse[] responses = sampler.At(bands.CenterOf(b), layersMm, cancellation);
                Put(up, j, b, Array.ConvertAll(responses, response => response.Up), scale: 1);
                Put(
                    returned, j, b, Array.ConvertAll(responses, response => response.Return),
                    scale: responses[0].Return);
            }

            progress((j + 1) / (double)nodes);
        }

        Kernels = Enumerable.Range(0, SpreadLadder.Count).Last(i => i == 0 || Enumerable.Range(0, nodes).Any(
            j => Vector4.Dot(up[(j * PerKernel) + i], Vector4.One) > SpreadBands.Count * Negligible)) + 1;
        (_up, _returned) = (OverSteps(up, nodesMm), OverSteps(returned, nodesMm));
        _perMm = Steps / (range.MaxMm - range.MinMm);
        _internal = [.. stumps.Select(stump => VectorOf(b => stump.InternalReflectanceAt(bands.CenterOf(b))))];
    }

    /// <summary>Thicknesses that are covered.</summary>
    public ThicknessRange Range { get; }

    /// <summary>Number of kernels that carry light, from the narrowest.</summary>
    public int Kernels { get; }

    /// <summary>Number of stumps.</summary>
    public int Stumps => _internal.Length;

    /// <summary>Step of the tables nearest to a thickness; that in the middle where it is not known.</summary>
    public int StepOf(double thicknessMm)
    {
        double at = (thicknessMm - Range.MinMm) * _perMm;
        return double.IsNaN(at) ? Steps / 2 : (int)(Math.Min(Steps, Math.Max(0, at)) + 0.5);
    }

    /// <summary>Share of what a stump sends up that a kernel carries.</summary>
    public Vector4 Up(int step, int kernel) => _up[(step * PerKernel) + kernel];

    /// <summary>Share that reaches the surface where it left the stump.</summary>
    public Vector4 UpLocal(int step) => _up[(step * PerKernel) + SpreadLadder.Count];

    /// <summary>What a kernel returns to the stumps of the light that they send up.</summary>
    public Vector4 Returned(int step, int kernel) => _returned[(step * PerKernel) + kernel];

    /// <summary>What returns where it left.</summary>
    public Vector4 ReturnedLocal(int step) => _returned[(step * PerKernel) + SpreadLadder.Count];

    /// <summary>All that returns over a stump that is the same everywhere.</summary>
    public Vector4 ReturnedAll(int step)
    {
        Vector4 sum = ReturnedLocal(step);
        for (int i = 0; i < SpreadLadder.Count; i++)
        {
            sum += Returned(step, i);
        }

        return sum;
    }

    /// <summary>Internal reflectance of a stump.</summary>
    public Vector4 Reflectance(int stump) => _internal[stump];

    private static Vector4 VectorOf(Func<int, double> band) =>
        new((float)band(0), (float)band(1), (float)band(2), (float)band(3));

    private static void Put(Vector4[] table, int node, int band, double[] responses, double scale)
    {
        double whole = responses[0], local = whole > 0 ? responses[responses.Length - 1] / whole : 1;
        double[] weights = SpreadLadder.Fit(
            k => whole > 0 ? LateralFrequencies.Interpolate(responses, k) / whole : 1, local);
        for (int i = 0; i <= SpreadLadder.Count; i++)
        {
            float weight = (float)(scale * (i < SpreadLadder.Count ? weights[i] : local));
            table[(node * PerKernel) + i] += weight * (band switch
            {
                0 => Vector4.UnitX,
                1 => Vector4.UnitY,
                2 => Vector4.UnitZ,
                _ => Vector4.UnitW,
            });
        }
    }

    // What kernels carry that are left out, the last one carries in their place.
    private Vector4[] OverSteps(Vector4[] nodes, double[] nodesMm)
    {
        for (int j = 0; j < nodesMm.Length; j++)
        {
            for (int i = Kernels; i < SpreadLadder.Count; i++)
            {
                nodes[(j * PerKernel) + Kernels - 1] += nodes[(j * PerKernel) + i];
                nodes[(j * PerKernel) + i] = Vector4.Zero;
            }
        }

        Vector4[] table = new Vector4[(Steps + 1) * PerKernel];
        int left = 0;
        for (int step = 0; step <= Steps; step++)
        {
            double mm = Range.MinMm + ((Range.MaxMm - Range.MinMm) * step / Steps);
            while (left < nodesMm.Length - 2 && nodesMm[left + 1] < mm)
            {
                left++;
            }

            float along = (float)Math.Min(1, Math.Max(0, (mm - nodesMm[left]) / (nodesMm[left + 1] - nodesMm[left])));
            for (int i = 0; i < PerKernel; i++)
            {
                table[(step * PerKernel) + i] = Vector4.Lerp(
                    nodes[(left * PerKernel) + i], nodes[((left + 1) * PerKernel) + i], along);
            }
        }

        return table;
    }
}
