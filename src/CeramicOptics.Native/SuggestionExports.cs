using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CeramicOptics.Mapping;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h that suggest a wall; each is described there.</summary>
internal static unsafe class SuggestionExports
{
    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_create", CallConvs = [typeof(CallConvCdecl)])]
    public static int Create(
        ulong map, int goal, PointsInput* points, MeshEdge* edges, long edgeCount, double maximumSlope,
        delegate* unmanaged[Cdecl]<double, void*, int> progress, void* user, ulong* suggestion) => Calls.Run(() =>
        {
            Fields.Pointer(suggestion, "suggestion");
            *suggestion = 0;
            if (MapExports.Find(map) is not OneLayerMap found)
            {
                throw new FieldException("map must be over the wall alone; of two layers none is suggested.");
            }

            PointReader reader = new(points, found);
            int count = Fields.InRange(reader.Count, 0, int.MaxValue, "points.count");
            int pairs = Fields.InRange(edgeCount, 0, int.MaxValue, "edge_count");
            if (pairs > 0)
            {
                Fields.Pointer(edges, "edges");
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
            using ProgressCall call = new(progress, user);
            *suggestion = Calls.Keep(Fields.Of("maximum_slope", () => WallSuggestion.Find(
                found.Map, wallMm, new ReadOnlySpan<MeshEdge>(edges, pairs), maximumSlope, zones, wanted,
                call.Part(0, 1), call.Cancellation)));
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_free", CallConvs = [typeof(CallConvCdecl)])]
    public static int Free(ulong suggestion) =>
        Calls.Run(() => Calls.Free<WallSuggestion>(suggestion, "suggestion"));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_values", CallConvs = [typeof(CallConvCdecl)])]
    public static int Values(
        ulong suggestion, int type, void* thicknesses, long stride, void* reductions, long reductionStride,
        long count, long* withoutAnswer) => Calls.Run(() =>
        {
            WallSuggestion found = Find(suggestion);
            Fields.Choice(type, 2, "type", "CERAMIC_FLOAT (1) or CERAMIC_DOUBLE (2)");
            if (count != found.ThicknessesMm.Count)
            {
                throw new FieldException(
                    $"count must be {found.ThicknessesMm.Count}, that of the suggestion, but is {count}.");
            }

            Write(found.ThicknessesMm, type, thicknesses, stride, "thicknesses");
            Write(found.ReductionsMm, type, reductions, reductionStride, "reductions");
            if (withoutAnswer != null)
            {
                *withoutAnswer = found.WithoutAnswer;
            }
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_cautions", CallConvs = [typeof(CallConvCdecl)])]
    public static int Cautions(ulong suggestion, byte* buffer, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionTexts(Find(suggestion).Cautions, buffer, capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_suggestion_caution_codes", CallConvs = [typeof(CallConvCdecl)])]
    public static int CautionCodes(ulong suggestion, int* codes, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionCodes(Find(suggestion).Cautions, codes, capacity, needed));

    private static WallSuggestion Find(ulong suggestion) => Calls.Find<WallSuggestion>(suggestion, "suggestion");

    // Either may be left out.
    private static void Write(IReadOnlyList<double> values, int type, void* data, long stride, string name)
    {
        if (data == null)
        {
            return;
        }

        PointWriter writer = new(data, stride, 1, type, values.Count, name, roundsUp: true);
        for (int from = 0; from < values.Count; from += PointReader.BlockLength)
        {
            int length = PointReader.LengthFrom(from, values.Count);
            Span<double> room = writer.Room(from, length);
            for (int i = 0; i < length; i++)
            {
                room[i] = values[from + i];
            }

            writer.Put(from, length);
        }
    }
}
