using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CeramicOptics.Colorimetry;
using CeramicOptics.Mapping;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h that answer for points; each is described there.</summary>
internal static unsafe class PointExports
{
    [UnmanagedCallersOnly(EntryPoint = "ceramic_differences", CallConvs = [typeof(CallConvCdecl)])]
    public static int Differences(ulong map, PointsInput* points, void* differences, long stride) => Calls.Run(() =>
    {
        NativeMap found = MapExports.Find(map);
        PointReader reader = new(points, found);
        PointWriter writer = new(differences, stride, 1, reader.Type, reader.Count, "differences");
        for (long from = 0; from < reader.Count; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, reader.Count);
            found.Differences(reader.Block(from), writer.Room(from, length));
            writer.Put(from, length);
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_missing", CallConvs = [typeof(CallConvCdecl)])]
    public static int Missing(ulong map, int goal, PointsInput* points, void* missing, long stride) => Calls.Run(() =>
    {
        NativeMap found = MapExports.Find(map);
        ThicknessGoal wanted = Goal(goal);
        PointReader reader = new(points, found);
        PointWriter writer = new(missing, stride, 1, reader.Type, reader.Count, "missing", roundsUp: true);
        for (long from = 0; from < reader.Count; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, reader.Count);
            found.Missing(reader.Block(from), writer.Room(from, length), wanted);
            writer.Put(from, length);
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_statuses", CallConvs = [typeof(CallConvCdecl)])]
    public static int Statuses(ulong map, PointsInput* points, byte* statuses, long stride) => Calls.Run(() =>
    {
        NativeMap found = MapExports.Find(map);
        PointReader reader = new(points, found);
        CheckBytes(statuses, stride, 1, reader.Count, "statuses");
        Span<PointStatus> block = stackalloc PointStatus[PointReader.BlockLength];
        for (long from = 0; from < reader.Count; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, reader.Count);
            byte* first = statuses + (from * stride);
            if (stride == 1)
            {
                found.Statuses(reader.Block(from), new Span<PointStatus>(first, length));
                continue;
            }

            found.Statuses(reader.Block(from), block[..length]);
            for (int i = 0; i < length; i++)
            {
                first[i * stride] = (byte)block[i];
            }
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_colors", CallConvs = [typeof(CallConvCdecl)])]
    public static int Colors(ulong map, PointsInput* points, void* lab, long stride) => Calls.Run(() =>
    {
        NativeMap found = MapExports.Find(map);
        PointReader reader = new(points, found);
        PointWriter writer = new(lab, stride, 3, reader.Type, reader.Count, "lab");
        for (long from = 0; from < reader.Count; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, reader.Count);
            found.Colors(reader.Block(from), MemoryMarshal.Cast<double, Lab>(writer.Room(from, length)));
            writer.Put(from, length);
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_srgb", CallConvs = [typeof(CallConvCdecl)])]
    public static int DisplayColors(ulong map, PointsInput* points, byte* rgba, long stride, long* clipped) =>
        Calls.Run(() =>
        {
            NativeMap found = MapExports.Find(map);
            PointReader reader = new(points, found);
            CheckBytes(rgba, stride, 4, reader.Count, "rgba");
            Span<Lab> block = stackalloc Lab[PointReader.BlockLength];
            Xyz white = Colorimeter.D65TwoDegree.White;
            long outside = 0;
            for (long from = 0; from < reader.Count; from += PointReader.BlockLength)
            {
                int length = PointReader.LengthFrom(from, reader.Count);
                found.Colors(reader.Block(from), block[..length]);
                for (int i = 0; i < length; i++)
                {
                    Srgb color = Srgb.FromXyz(block[i].ToXyz(white));
                    bool isKnown = !double.IsNaN(block[i].L);
                    outside += isKnown && !color.IsInGamut ? 1 : 0;
                    byte* to = rgba + ((from + i) * stride);
                    (to[0], to[1], to[2], to[3]) = isKnown
                        ? (Byte(color.R), Byte(color.G), Byte(color.B), byte.MaxValue)
                        : ((byte)0, (byte)0, (byte)0, (byte)0);
                }
            }

            if (clipped != null)
            {
                *clipped = outside;
            }
        });

    /// <summary>A goal by its number in the header.</summary>
    public static ThicknessGoal Goal(int goal) => (ThicknessGoal)(Fields.Choice(
        goal, 3, "goal", "CERAMIC_RECOMMENDED (1), CERAMIC_RELIABLE (2) or CERAMIC_BY_COLOR (3)") - 1);

    private static void CheckBytes(void* data, long stride, int width, long count, string name)
    {
        if (count > 0)
        {
            Fields.Pointer(data, name);
            Fields.Stride(stride, width, $"{name}_stride");
        }
    }

    private static byte Byte(double channel) => (byte)Math.Round(255 * Math.Clamp(channel, 0, 1));
}
