using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Layers;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h that make maps and tell of them; each is described there.</summary>
internal static unsafe class MapExports
{
    private const int Version = 2;

    [UnmanagedCallersOnly(EntryPoint = "ceramic_version", CallConvs = [typeof(CallConvCdecl)])]
    public static int InterfaceVersion() => Version;

    [UnmanagedCallersOnly(EntryPoint = "ceramic_library_version", CallConvs = [typeof(CallConvCdecl)])]
    public static int LibraryVersion(byte* buffer, long capacity, long* needed) => Calls.Run(() => Calls.Text(
        typeof(ThicknessMap).Assembly.GetName().Version!.ToString(3), buffer, capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_struct_size", CallConvs = [typeof(CallConvCdecl)])]
    public static uint StructSize(int structure) => (uint)(structure switch
    {
        1 => sizeof(CaseInput),
        2 => sizeof(LayerInput),
        3 => sizeof(ZoneInput),
        4 => sizeof(UncertaintyInput),
        5 => sizeof(PointsInput),
        6 => sizeof(MeshEdge),
        7 => sizeof(MapInfo),
        8 => sizeof(LimitsInput),
        _ => 0,
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_last_error", CallConvs = [typeof(CallConvCdecl)])]
    public static int LastError(byte* buffer, long capacity, long* needed)
    {
        string error = Calls.Error;
        return Calls.Run(() => Calls.Text(error, buffer, capacity, needed));
    }

    [UnmanagedCallersOnly(EntryPoint = "ceramic_live_handles", CallConvs = [typeof(CallConvCdecl)])]
    public static long LiveHandles() => Calls.Live;

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_create", CallConvs = [typeof(CallConvCdecl)])]
    public static int Create(
        CaseInput* input, delegate* unmanaged[Cdecl]<double, void*, int> progress, void* user, ulong* map) =>
        Calls.Run(() =>
        {
            Fields.Pointer(map, "map");
            *map = 0;
            Fields.Pointer(input, "case");
            using ProgressCall call = new(progress, user);
            *map = Calls.Keep(CaseReader.Compile(*input, call));
        });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_free", CallConvs = [typeof(CallConvCdecl)])]
    public static int Free(ulong map) => Calls.Run(() => Calls.Free<NativeMap>(map, "map"));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_info", CallConvs = [typeof(CallConvCdecl)])]
    public static int Info(ulong map, int zone, double veneerMm, MapInfo* info) => Calls.Run(() =>
    {
        Fields.Pointer(info, "info");
        Fields.Size(info->Size, sizeof(MapInfo), "ceramic_info");
        NativeMap found = Find(map);
        int place = Zone(found, zone);
        ThicknessRequirement requirement = found.Requirement(place, veneerMm);
        MinimumThickness minimum = requirement.Minimum;
        (ThicknessRange range, ThicknessRange? veneer) = (found.Range(place), found.VeneerRange(place));
        *info = new MapInfo
        {
            Size = info->Size,
            ZoneCount = found.Zones,
            MinMm = range.MinMm,
            MaxMm = range.MaxMm,
            VeneerMinMm = veneer?.MinMm ?? double.NaN,
            VeneerMaxMm = veneer?.MaxMm ?? double.NaN,
            ErrorBound = found.ErrorBound(place),
            Limit = requirement.Criterion.Limit,
            ByColorMm = minimum.ByColorMm ?? double.NaN,
            ReliableMm = minimum.ReliableMm ?? double.NaN,
            ReliableShare = minimum.Share,
            StructuralMm = minimum.StructuralMm ?? double.NaN,
            RecommendedMm = minimum.RecommendedMm ?? double.NaN,
            StandardUncertaintyMm = minimum.StandardUncertaintyMm ?? double.NaN,
            ByColorUpToMm = minimum.ByColorUpToMm ?? double.NaN,
            ReliableUpToMm = minimum.ReliableUpToMm ?? double.NaN,
        };
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_cautions", CallConvs = [typeof(CallConvCdecl)])]
    public static int Cautions(ulong map, int zone, byte* buffer, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionTexts(CautionsOf(map, zone), buffer, capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_caution_codes", CallConvs = [typeof(CallConvCdecl)])]
    public static int CautionCodes(ulong map, int zone, int* codes, long capacity, long* needed) =>
        Calls.Run(() => Calls.CautionCodes(CautionsOf(map, zone), codes, capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_save", CallConvs = [typeof(CallConvCdecl)])]
    public static int Save(ulong map, int zone, byte* buffer, long capacity, long* needed) => Calls.Run(() =>
    {
        NativeMap found = Find(map);
        using MemoryStream stream = new();
        found.Save(Zone(found, zone), stream);
        Span<byte> bytes = stream.GetBuffer().AsSpan(0, (int)stream.Length);
        if (needed != null)
        {
            *needed = bytes.Length;
        }

        if (buffer != null)
        {
            if (capacity < bytes.Length)
            {
                throw new FieldException($"capacity must be at least {bytes.Length} but is {capacity}.");
            }

            bytes.CopyTo(new Span<byte>(buffer, bytes.Length));
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_map_load", CallConvs = [typeof(CallConvCdecl)])]
    public static int Load(int kind, byte** files, long* lengths, int zones, ulong* map) => Calls.Run(() =>
    {
        Fields.Pointer(map, "map");
        *map = 0;
        Fields.Choice(kind, 2, "kind", "CERAMIC_ONE_LAYER (1) or CERAMIC_TWO_LAYERS (2)");
        Fields.InRange(zones, 1, 256, "zone_count");
        Fields.Pointer(files, "files");
        Fields.Pointer(lengths, "lengths");
        *map = Calls.Keep(kind == 1
            ? new OneLayerMap(Read(ResponseJson.Read, files, lengths, zones))
            : new TwoLayerNativeMap(Read(ResponseJson.ReadTwoLayer, files, lengths, zones)));
    });

    public static NativeMap Find(ulong map) => Calls.Find<NativeMap>(map, "map");

    private static T[] Read<T>(Func<Stream, string, T> read, byte** files, long* lengths, int zones)
    {
        T[] made = new T[zones];
        for (int i = 0; i < zones; i++)
        {
            Fields.Pointer(files[i], $"files[{i}]");
            int length = Fields.InRange(lengths[i], 0, int.MaxValue, $"lengths[{i}]");
            using UnmanagedMemoryStream stream = new(files[i], length);
            made[i] = read(stream, $"files[{i}]");
        }

        return made;
    }

    private static int Zone(NativeMap map, int zone) => Fields.InRange(zone, 0, map.Zones - 1, "zone");

    private static IEnumerable<Caution> CautionsOf(ulong map, int zone)
    {
        NativeMap found = Find(map);
        return found.Cautions(Zone(found, zone));
    }
}
