using System.Buffers.Binary;
using System.Text;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests.Unit;

/// <summary>Tables for shaders, read as a graphics processor reads them, against the responses.</summary>
public class GpuTableTests
{
    private static readonly Lazy<ThicknessResponse[]> Walls = new(() =>
    [
        .. new[] { (MapData.Brown, MapData.Glass), (MapData.Black, MapData.Zirconia) }.Select(one =>
        {
            Restoration crown = MapData.Crown(one.Item1, one.Item2, 0.6);
            return ThicknessResponse.Compile(crown, crown.Zones[0]);
        }),
    ]);

    private static readonly Lazy<TwoLayerResponse> Layered = new(() =>
    {
        Restoration crown = MapData.Crown(MapData.Brown, MapData.Zirconia, 0.6) with
        {
            Veneer = Veneer.OfShare(MapData.Glass, 0.5),
        };
        return TwoLayerResponse.Compile(
            crown, crown.Zones[0], new ThicknessRange(0.2, 1), new ThicknessRange(0.3, 2));
    });

    [Theory]
    [InlineData(0, false, 64)]
    [InlineData(0, false, 1024)]
    [InlineData(1, true, 1024)]
    [InlineData(1, false, 16384)]
    public void Wall_read_with_weights_of_8_bits_departs_by_no_more_than_is_stated(int which, bool half, int size)
    {
        ThicknessResponse response = Walls.Value[which];
        GpuTable table = GpuTable.From(response, half, size);
        ShaderSampler colors = ShaderSampler.Colors(table);
        (float low, float high) = ((float)response.Range.MinMm, (float)response.Range.MaxMm);
        Random random = new(7);
        double worstColor = 0, worst = 0;
        for (int i = 0; i < 20000; i++)
        {
            float mm = low + ((high - low) * random.NextSingle());
            if (!response.Range.Contains(mm))
            {
                continue;
            }

            float s = ShaderSampler.Coordinate(mm, low, high, size);
            double[] read = colors.Linear(s, 0.5f, roundsDown: i % 2 == 0);
            worstColor = Math.Max(worstColor, ColorDifference.Cie76(response.ColorAt(mm), LabOf(read)));
            worst = Math.Max(worst, Math.Abs(response.DifferenceAt(mm) - read[3]));
        }

        Assert.InRange(worstColor, table.ColorError / 4, table.ColorError);
        Assert.InRange(worst, table.DifferenceError / 20, table.DifferenceError);
        Assert.True(size < 1024 || (table.ColorError < (half ? 0.15 : 0.02) && table.DifferenceError < 0.05));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Two_layers_depart_by_no_more_than_is_stated(bool half)
    {
        TwoLayerResponse response = Layered.Value;
        GpuTable table = GpuTable.From(response, half);
        ShaderSampler colors = ShaderSampler.Colors(table), statuses = ShaderSampler.Statuses(table);
        TwoLayerMap map = new([response]);
        PointStatus[] one = new PointStatus[1];
        Random random = new(11);
        double worstColor = 0, worst = 0;
        for (int i = 0; i < 20000; i++)
        {
            float veneer = 0.2001f + (0.7998f * random.NextSingle()), core = 0.3001f + (1.6998f * random.NextSingle());
            float s = ShaderSampler.Coordinate(veneer, 0.2f, 1, table.Width);
            float t = ShaderSampler.Coordinate(core, 0.3f, 2, table.Height);
            double[] read = colors.Linear(s, t, roundsDown: i % 2 == 0);
            worstColor = Math.Max(worstColor, ColorDifference.Cie76(response.ColorAt(veneer, core), LabOf(read)));
            worst = Math.Max(worst, Math.Abs(response.DifferenceAt(veneer, core) - read[3]));

            // The status is that of a point nearby: the middle of the texel.
            double veneerMm = 0.2 + (Math.Round((veneer - 0.2) / 0.8 * 255) / 255 * 0.8);
            double coreMm = 0.3 + (Math.Round((core - 0.3) / 1.7 * 255) / 255 * 1.7);
            bool nearEdge = IsNearEdge((veneer - 0.2) / 0.8 * 255) || IsNearEdge((core - 0.3) / 1.7 * 255);
            map.Statuses([Math.Min(veneerMm, 1)], [Math.Min(coreMm, 2)], one);
            Assert.True(nearEdge || statuses.Nearest(s, t) == (byte)one[0], $"{veneer} {core}");
        }

        Assert.InRange(worstColor, table.ColorError / 10, table.ColorError);
        Assert.InRange(worst, table.DifferenceError / 20, table.DifferenceError);
        Assert.True(table.ColorError < 0.2 && table.DifferenceError < 0.2);
        Assert.InRange(table.StatusErrorMm, 1.7 / 255 / 2, 1.7 / 255 * 0.51);
    }

    [Fact]
    public void Status_is_that_of_a_point_no_farther_away_than_is_stated()
    {
        ThicknessResponse response = Walls.Value[1];
        GpuTable table = GpuTable.From(response, halfPrecision: false, 128);
        ShaderSampler statuses = ShaderSampler.Statuses(table);
        ThicknessMap map = new([response]);
        PointStatus[] near = new PointStatus[3];
        Random random = new(3);
        HashSet<byte> seen = [];
        for (int i = 0; i < 20000; i++)
        {
            float mm = 0.3001f + (1.6998f * random.NextSingle());
            byte read = statuses.Nearest(ShaderSampler.Coordinate(mm, 0.3f, 2, 128), 0.5f);
            double[] mms = [Math.Max(0.3, mm - table.StatusErrorMm), mm, Math.Min(2, mm + table.StatusErrorMm)];
            map.Statuses(mms, near);
            Assert.Contains(read, near.Select(status => (byte)status));
            seen.Add(read);
        }

        Assert.True(seen.Count >= 2, "the wall has only one status");
    }

    [Fact]
    public void Ktx2_has_the_published_layout()
    {
        GpuTable table = GpuTable.From(Walls.Value[0], halfPrecision: true, 64);
        using MemoryStream stream = new();
        GpuTableFile.WriteKtx2(table, stream);
        byte[] file = stream.ToArray();
        uint At(int at) => BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(at));

        // KTX 2.0, chapter 3: identifier, header, index.
        Assert.Equal("AB4B5458203230BB0D0A1A0A", Convert.ToHexString(file, 0, 12));
        Assert.Equal([97u, 2, 64, 1, 0, 0, 1, 1, 0], Enumerable.Range(0, 9).Select(i => At(12 + (4 * i))));
        Assert.Equal([104u, 92, 196], Enumerable.Range(0, 3).Select(i => At(48 + (4 * i))));
        Assert.Equal(0ul, BinaryPrimitives.ReadUInt64LittleEndian(file.AsSpan(64)) + At(72) + At(76));
        long level = BinaryPrimitives.ReadInt64LittleEndian(file.AsSpan(80));
        Assert.Equal(0, level % 8);
        Assert.InRange(level - 196 - At(60), 0, 7);
        Assert.Equal(64 * 8, BinaryPrimitives.ReadInt64LittleEndian(file.AsSpan(88)));
        Assert.Equal(64 * 8, BinaryPrimitives.ReadInt64LittleEndian(file.AsSpan(96)));
        Assert.Equal(file.Length, level + (64 * 8));
        Assert.Equal(table.Texels.ToArray(), file[(int)level..]);

        // Data Format 1.3, chapter 5: total size; basic block of version 2; RGBSDA, BT.709, linear; texel of 8 bytes;
        // four signed floats of 16 bits from -1 to 1.
        Assert.Equal(
            [92u, 0, (88 << 16) | 2, 0x00010101, 0, 8, 0], Enumerable.Range(0, 7).Select(i => At(104 + (4 * i))));
        for (int sample = 0; sample < 4; sample++)
        {
            uint channel = 0xC0 | (sample == 3 ? 15u : (uint)sample);
            Assert.Equal(
                [(channel << 24) | (15 << 16) | (16 * (uint)sample), 0, 0xBF800000, 0x3F800000],
                Enumerable.Range(0, 4).Select(i => At(132 + (16 * sample) + (4 * i))));
        }

        // Keys are sorted, their values end with NUL.
        string[] keys = [.. ShaderSampler.Colors(table).Keys.Keys];
        Assert.Equal(["CeramicOptics.description", "CeramicOptics.glsl", "KTXorientation", "KTXwriter"], keys);
        Assert.Equal(0, file[196 + 4 + At(196) - 1]);
    }

    [Fact]
    public void Ktx2_of_statuses_has_the_published_layout()
    {
        GpuTable table = GpuTable.From(Walls.Value[0], halfPrecision: true, 65);
        using MemoryStream stream = new();
        GpuTableFile.WriteStatusKtx2(table, stream);
        byte[] file = stream.ToArray();
        uint At(int at) => BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(at));

        // R8_UINT, whose primaries and transfer function must be unspecified.
        Assert.Equal([13u, 1, 65, 1, 0, 0, 1, 1, 0], Enumerable.Range(0, 9).Select(i => At(12 + (4 * i))));
        Assert.Equal(
            [44u, 0, (40 << 16) | 2, 1, 0, 1, 0, 7 << 16, 0, 0, 1],
            Enumerable.Range(0, 11).Select(i => At(104 + (4 * i))));
        int level = (int)At(80);
        Assert.Equal(0, level % 4);
        Assert.Equal(table.Statuses.ToArray(), file[level..]);
    }

    [Fact]
    public void Cautions_and_function_go_with_every_file()
    {
        GpuTable table = GpuTable.From(Layered.Value, halfPrecision: true, 16);
        Assert.Contains(table.Cautions, caution => caution.Kind == CautionKind.StrengthNotAssessed);
        foreach (ShaderSampler file in new[] { ShaderSampler.Colors(table), ShaderSampler.Statuses(table) })
        {
            Assert.Equal(GpuTableFile.Describe(table), file.Keys["CeramicOptics.description"]);
            Assert.Equal(GpuTableFile.Glsl(table), file.Keys["CeramicOptics.glsl"]);
            Assert.All(
                table.Cautions,
                caution => Assert.Contains($"! {caution}\n", file.Keys["CeramicOptics.description"]));
        }
    }

    [Fact]
    public void Half_floats_are_those_of_ieee_754()
    {
        for (int bits = 0; bits < 0x7C00; bits++)
        {
            double value = (double)BitConverter.UInt16BitsToHalf((ushort)bits);
            double next = (double)BitConverter.UInt16BitsToHalf((ushort)Math.Min(bits + 1, 0x7BFF));
            foreach (double near in new[] { value, -value, (value + next) / 2, value + ((next - value) * 0.51) })
            {
                uint found = HalfFloat.Round(near, out double stored);
                Assert.Equal(BitConverter.HalfToUInt16Bits((Half)near) & (near == 0 ? 0x7FFF : 0xFFFF), (int)found);
                Assert.Equal((double)(Half)near, stored);
            }
        }
    }

    private static bool IsNearEdge(double texel) => Math.Abs(texel - Math.Floor(texel) - 0.5) < 1e-3;

    // Linear light to L*a*b* by the equations of IEC 61966-2-1, solved by elimination.
    private static Lab LabOf(double[] rgb)
    {
        double[][] rows =
        [
            [3.2406, -1.5372, -0.4986, rgb[0]], [-0.9689, 1.8758, 0.0415, rgb[1]], [0.0557, -0.2040, 1.0570, rgb[2]],
        ];
        for (int pivot = 0; pivot < 3; pivot++)
        {
            foreach (double[] row in rows.Where(row => row != rows[pivot]))
            {
                double factor = row[pivot] / rows[pivot][pivot];
                for (int k = 0; k < 4; k++)
                {
                    row[k] -= factor * rows[pivot][k];
                }
            }
        }

        double Value(int i) => 100 * rows[i][3] / rows[i][i];
        return Lab.FromXyz(new Xyz(Value(0), Value(1), Value(2)), Colorimeter.D65TwoDegree.White);
    }
}
