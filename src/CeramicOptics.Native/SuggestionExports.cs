using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CeramicOptics.Mapping;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h that suggest a wall; each is described there.</summary>
internal static unsafe class SuggestionExports
{
    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_create", CallConvs = [typeof(CallConvCdecl)])]
    public static int Create(
        ulong map, int goal, ulong mesh, PointsInput* points, double maximumSlope, LimitsInput* limits, ulong previous,
        delegate* unmanaged[Cdecl]<double, void*, int> progress, void* user, ulong* suggestion) => Calls.Run(() =>
        {
            Fields.Pointer(suggestion, "suggestion");
            *suggestion = 0;
            if (MapExports.Find(map) is not OneLayerMap found)
            {
                throw new FieldException("map must be over the wall alone; of two layers none is suggested.");
            }

            MapMesh surface = Calls.Find<MapMesh>(mesh, "mesh");
            PointReader reader = new(points, found);
            int count = surface.PointCount;
            if (reader.Count != count)
            {
                throw new FieldException($"points.count must be {count}, that of the mesh, but is {reader.Count}.");
            }

            double[] wallMm = new double[count];
            byte[] zones = points->Zones == null ? [] : new byte[count];
            for (int from = 0; from < count; from += PointReader.BlockLength)
            {
                PointBlock block = reader.Block(from);
                block.WallMm.CopyTo(wallMm.AsSpan(from));
                block.Zones.CopyTo(zones.AsSpan(Math.Min(from, zones.Length)));
            }

            ThicknessGoal wanted = PointExports.Goal(goal);
            WallLimits kept = LimitsInput.Read(limits, count);
            WallSuggestion? known = previous == 0 ? null : Calls.Find<WallSuggestion>(previous, "previous");
            using ProgressCall call = new(progress, user);
            *suggestion = Calls.Keep(Fields.Of("maximum_slope", () => WallSuggestion.Find(
                found.Map, surface, wallMm, maximumSlope, zones, wanted, kept, known, call.Part(0, 1),
                call.Cancellation)));
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_free", CallConvs = [typeof(CallConvCdecl)])]
    public static int Free(ulong suggestion) =>
        Calls.Run(() => Calls.Free<WallSuggestion>(suggestion, "suggestion"));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_values", CallConvs = [typeof(CallConvCdecl)])]
    public static int Values(
        ulong suggestion, int type, void* thicknesses, long stride, void* reductions, long reductionStride,
        long count) => Calls.Run(() =>
        {
            WallSuggestion found = Find(suggestion, count);
            Fields.Choice(type, 2, "type", "CERAMIC_FLOAT (1) or CERAMIC_DOUBLE (2)");
            Write(found.ThicknessesMm, type, thicknesses, stride, "thicknesses");
            Write(found.ReductionsMm, type, reductions, reductionStride, "reductions");
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_statuses", CallConvs = [typeof(CallConvCdecl)])]
    public static int Statuses(ulong suggestion, byte* statuses, long stride, long count) => Calls.Run(() =>
    {
        ReadOnlySpan<WallStatus> found = Find(suggestion, count).Statuses;
        if (count > 0)
        {
            Fields.Pointer(statuses, "statuses");
            Fields.Stride(stride, 1, "stride");
        }

        for (int i = 0; i < found.Length; i++)
        {
            statuses[i * stride] = (byte)found[i];
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_cautions", CallConvs = [typeof(CallConvCdecl)])]
    public static int Cautions(ulong suggestion, byte* buffer, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionTexts(Find(suggestion).Cautions, buffer, capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_caution_codes", CallConvs = [typeof(CallConvCdecl)])]
    public static int CautionCodes(ulong suggestion, int* codes, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionCodes(Find(suggestion).Cautions, codes, capacity, needed));

    private static WallSuggestion Find(ulong suggestion) => Calls.Find<WallSuggestion>(suggestion, "suggestion");

    private static WallSuggestion Find(ulong suggestion, long count)
    {
        WallSuggestion found = Find(suggestion);
        return count == found.Statuses.Length
            ? found
            : throw new FieldException(
                $"count must be {found.Statuses.Length}, that of the suggestion, but is {count}.");
    }

    // Either may be left out.
    private static void Write(ReadOnlySpan<double> values, int type, void* data, long stride, string name)
    {
        if (data == null)
        {
            return;
        }

        PointWriter writer = new(data, stride, 1, type, values.Length, name, roundsUp: true);
        for (int from = 0; from < values.Length; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, values.Length);
            values.Slice(from, length).CopyTo(writer.Room(from, length));
            writer.Put(from, length);
        }
    }
}
