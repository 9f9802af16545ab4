using System.Text;
using CeramicOptics.Mapping;

namespace CeramicOptics.Exchange;

/// <summary>
/// Files for shaders: textures in KTX 2.0, the open container of the Khronos Group, the GLSL function that reads them,
/// and a description for raw textures.
/// </summary>
/// <remarks>
/// KTX File Format Specification 2.0, revision 4; data format descriptor of the Khronos Data Format Specification 1.3.
/// One level, one layer, no compression. Key CeramicOptics.description has the text of <see cref="Describe"/>, with the
/// cautions, CeramicOptics.glsl the function.
/// </remarks>
public static class GpuTableFile
{
    private const int HeaderLength = 80, LevelLength = 24;

    // Vulkan's numbers of formats.
    private const uint R8UInt = 13, Rgba16Float = 97, Rgba32Float = 109;

    // Khronos Data Format: RGBSDA; primaries of BT.709 and sRGB; transfer functions; channels and their qualifiers.
    private const uint ModelRgbsda = 1, PrimariesBt709 = 1, TransferLinear = 1, Unspecified = 0,
        SignedFloat = 0xC0, MinusOne = 0xBF800000, One = 0x3F800000;

    private static readonly byte[] Identifier =
        [0xAB, 0x4B, 0x54, 0x58, 0x20, 0x32, 0x30, 0xBB, 0x0D, 0x0A, 0x1A, 0x0A];

    // Red, green, blue, alpha.
    private static readonly uint[] Channels = [0, 1, 2, 15];

    /// <summary>Writes colours and differences: R16G16B16A16_SFLOAT or R32G32B32A32_SFLOAT.</summary>
    /// <param name="table">The table.</param>
    /// <param name="stream">Destination; left open.</param>
    public static void WriteKtx2(GpuTable table, Stream stream)
    {
        int size = Guard.NotNull(table).IsHalf ? 2 : 4;
        List<uint> samples = [];
        for (int i = 0; i < Channels.Length; i++)
        {
            samples.AddRange(
                [Sample(8 * size * i, 8 * size, Channels[i] | SignedFloat), 0, MinusOne, One]);
        }

        Write(
            table, stream, size == 2 ? Rgba16Float : Rgba32Float, size, 4,
            Descriptor(PrimariesBt709, TransferLinear, 4 * size, samples), table.Texels);
    }

    /// <summary>Writes the statuses of the same texels: R8_UINT, values of <see cref="PointStatus"/>.</summary>
    /// <param name="table">The table.</param>
    /// <param name="stream">Destination; left open.</param>
    public static void WriteStatusKtx2(GpuTable table, Stream stream) => Write(
        Guard.NotNull(table), stream, R8UInt, 1, 1,
        Descriptor(Unspecified, Unspecified, 1, [Sample(0, 8, Channels[0]), 0, 0, 1]), table.Statuses);

    /// <summary>Functions and textures in GLSL that read a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="name">Name of the function, and beginning of those of the textures: letters and digits.</param>
    /// <returns>
    /// Source for version 330 and later, or 300 es. "vec4 name(float wallMm, out uint status)", with veneerMm and
    /// coreMm for two layers, gives colour and difference. Outside the range, and for NaN, it gives black, a difference
    /// of -1 and the status that says so.
    /// </returns>
    /// <exception cref="ArgumentException">The name is not made of letters and digits, or begins with a
    /// digit.</exception>
    public static string Glsl(GpuTable table, string name = "ceramic") =>
        Guard.NotBlank(name)[0] is (>= 'a' and <= 'z') or (>= 'A' and <= 'Z')
            && name.All(c => c is (>= 'a' and <= 'z') or (>= 'A' and <= 'Z') or (>= '0' and <= '9'))
            ? GpuText.Glsl(Guard.NotNull(table), name)
            : throw new ArgumentException(
                $"name must consist of ASCII letters and digits and begin with a letter, but is '{name}'.",
                nameof(name));

    /// <summary>Description of a table, in English: layout, ranges, errors, requirement, statuses and
    /// cautions.</summary>
    /// <param name="table">The table.</param>
    /// <returns>The text to keep beside raw textures.</returns>
    public static string Describe(GpuTable table) => GpuText.Describe(Guard.NotNull(table));

    private static uint Sample(int bitOffset, int bits, uint channel) =>
        (uint)bitOffset | (uint)((bits - 1) << 16) | (channel << 24);

    private static List<uint> Descriptor(uint primaries, uint transfer, int texelBytes, List<uint> samples)
    {
        // Vendor and type 0: the basic block. Version 2 is that of Data Format 1.3.
        uint blockLength = 24 + (4 * (uint)samples.Count);
        return
        [
            4 + blockLength, 0, 2 | (blockLength << 16), ModelRgbsda | (primaries << 8) | (transfer << 16), 0,
            (uint)texelBytes, 0, .. samples,
        ];
    }

    private static void Write(
        GpuTable table, Stream stream, uint format, int typeSize, int channels, List<uint> descriptor,
        ReadOnlySpan<byte> texels)
    {
        Guard.NotNull(stream);

        // Keys in the order of their code points.
        byte[] keys =
        [
            .. Entry("CeramicOptics.description", Describe(table)), .. Entry("CeramicOptics.glsl", Glsl(table)),
            .. Entry("KTXorientation", "rd"), .. Entry("KTXwriter", "CeramicOptics " + Version()),
        ];
        int descriptorAt = HeaderLength + LevelLength, keysAt = descriptorAt + (4 * descriptor.Count);

        // A level begins at a multiple of the texel and of 4 bytes; sizes of texels are 1, 8 and 16.
        int alignment = Math.Max(4, typeSize * channels), levelAt = Aligned(keysAt + keys.Length, alignment);
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        writer.Write(Identifier);
        foreach (int number in (int[])
            [(int)format, typeSize, table.Width, table.Height, 0, 0, 1, 1, 0,
                descriptorAt, 4 * descriptor.Count, keysAt, keys.Length])
        {
            writer.Write(number);
        }

        foreach (long number in (long[])[0, 0, levelAt, texels.Length, texels.Length])
        {
            writer.Write(number);
        }

        foreach (uint word in descriptor)
        {
            writer.Write(word);
        }

        writer.Write(keys);
        writer.Write(new byte[levelAt - keysAt - keys.Length]);
        writer.Write(texels.ToArray());
        writer.Flush();
        bytes.WriteTo(stream);
    }

    // Length, key, NUL, value, NUL, and zeros up to a multiple of four bytes. A NUL inside would end the text.
    private static byte[] Entry(string key, string value)
    {
        byte[] text = Encoding.UTF8.GetBytes(key + "\0" + value.Replace('\0', '\uFFFD') + "\0");
        byte[] entry = new byte[Aligned(4 + text.Length, 4)];
        for (int i = 0; i < 4; i++)
        {
            entry[i] = (byte)(text.Length >> (8 * i));
        }

        text.CopyTo(entry, 4);
        return entry;
    }

    private static int Aligned(int at, int to) => (at + to - 1) / to * to;

    private static string Version() => typeof(GpuTableFile).Assembly.GetName().Version!.ToString(3);
}
