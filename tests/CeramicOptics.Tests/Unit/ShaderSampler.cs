using System.Buffers.Binary;
using System.Text;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;

namespace CeramicOptics.Tests.Unit;

/// <summary>
/// A KTX2 texture read by the published layout, and sampled as OpenGL 4.6 (core profile), 8.14.2, says: texel centres
/// at (i + 0.5) / n, clamp to edge, linear weights, here of 8 bits.
/// </summary>
internal sealed class ShaderSampler
{
    private readonly byte[] _file;
    private readonly int _level, _format;

    private ShaderSampler(byte[] file)
    {
        _file = file;
        (_format, Width, Height) = (Word(12), Word(20), Word(24));
        _level = (int)BinaryPrimitives.ReadInt64LittleEndian(file.AsSpan(80));
        for (int at = Word(56), end = at + Word(60); at < end;)
        {
            int length = Word(at);
            string[] entry = Encoding.UTF8.GetString(file, at + 4, length).Split('\0');
            Keys.Add(entry[0], entry[1]);
            at += 4 + ((length + 3) / 4 * 4);
        }
    }

    public int Width { get; }

    public int Height { get; }

    public Dictionary<string, string> Keys { get; } = [];

    public static ShaderSampler Colors(GpuTable table)
    {
        using MemoryStream stream = new();
        GpuTableFile.WriteKtx2(table, stream);
        return new ShaderSampler(stream.ToArray());
    }

    public static ShaderSampler Statuses(GpuTable table)
    {
        using MemoryStream stream = new();
        GpuTableFile.WriteStatusKtx2(table, stream);
        return new ShaderSampler(stream.ToArray());
    }

    /// <summary>The texture coordinate that the function in GLSL computes, in single precision.</summary>
    public static float Coordinate(float mm, float low, float high, float size) =>
        (((mm - low) / (high - low) * (size - 1f)) + 0.5f) / size;

    public byte Nearest(float s, float t) =>
        _file[_level + (Near(t, Height) * Width) + Near(s, Width)];

    /// <param name="s">Coordinate along a row.</param>
    /// <param name="t">Coordinate across rows.</param>
    /// <param name="roundsDown">Whether weights are cut after 8 bits, or rounded.</param>
    public double[] Linear(float s, float t, bool roundsDown)
    {
        (int i0, int i1, double u) = Weights(s, Width, roundsDown);
        (int j0, int j1, double v) = Weights(t, Height, roundsDown);
        return
        [
            .. Enumerable.Range(0, 4).Select(c =>
                ((1 - v) * (((1 - u) * At(i0, j0, c)) + (u * At(i1, j0, c))))
                    + (v * (((1 - u) * At(i0, j1, c)) + (u * At(i1, j1, c))))),
        ];
    }

    private static int Near(float s, int size) => Math.Clamp((int)MathF.Floor(s * size), 0, size - 1);

    private static (int Left, int Right, double Weight) Weights(float s, int size, bool roundsDown)
    {
        float at = (s * size) - 0.5f, left = MathF.Floor(at), weight = 256 * (at - left);
        return (
            Math.Clamp((int)left, 0, size - 1), Math.Clamp((int)left + 1, 0, size - 1),
            (roundsDown ? MathF.Floor(weight) : MathF.Round(weight)) / 256);
    }

    private double At(int i, int j, int channel)
    {
        int at = (4 * ((j * Width) + i)) + channel;
        return _format == 97
            ? (double)BinaryPrimitives.ReadHalfLittleEndian(_file.AsSpan(_level + (2 * at)))
            : BinaryPrimitives.ReadSingleLittleEndian(_file.AsSpan(_level + (4 * at)));
    }

    private int Word(int at) => BinaryPrimitives.ReadInt32LittleEndian(_file.AsSpan(at));
}
