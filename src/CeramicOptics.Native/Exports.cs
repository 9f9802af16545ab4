using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;
using CeramicOptics.Colorimetry;
using CeramicOptics.Decisions.Masking;
using CeramicOptics.Exchange;
using CeramicOptics.Mapping;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>The functions of ceramic_optics.h, where each is described. No exception leaves them.</summary>
internal static unsafe class Exports
{
    private const int Ok = 0, BadArgument = 1, BadFile = 2, Failed = 3;

    // Numbers instead of pointers: one that is gone is an error, not a crash.
    private static readonly ConcurrentDictionary<ulong, ThicknessMap> Responses = new();
    private static ulong _last;

    [ThreadStatic]
    private static string? _error;

    [UnmanagedCallersOnly(EntryPoint = "ceramic_response_create", CallConvs = [typeof(CallConvCdecl)])]
    public static int Create(CaseInput* input, ulong* response) => Run(() =>
    {
        Require(input, nameof(input));
        Require(response, nameof(response));
        *response = 0;
        *response = Keep(Compile(*input));
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_response_load", CallConvs = [typeof(CallConvCdecl)])]
    public static int Load(byte* utf8, long length, ulong* response) => Run(() =>
    {
        Require(utf8, nameof(utf8));
        Require(response, nameof(response));
        *response = 0;
        using UnmanagedMemoryStream stream = new(utf8, Count(length));
        *response = Keep(ResponseJson.Read(stream, "response"));
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_response_info", CallConvs = [typeof(CallConvCdecl)])]
    public static int Info(ulong response, ResponseInfo* info) => Run(() =>
    {
        Require(info, nameof(info));
        ThicknessResponse found = Find(response).Zones[0];
        MinimumThickness minimum = found.Requirement.Minimum;
        *info = new ResponseInfo
        {
            MinMm = found.Range.MinMm,
            MaxMm = found.Range.MaxMm,
            ErrorBound = found.ErrorBound,
            ByColorMm = minimum.ByColorMm ?? double.NaN,
            ReliableMm = minimum.ReliableMm ?? double.NaN,
            ReliableShare = minimum.Share,
            StructuralMm = minimum.StructuralMm ?? double.NaN,
            RecommendedMm = minimum.RecommendedMm ?? double.NaN,
            StandardUncertaintyMm = minimum.StandardUncertaintyMm ?? double.NaN,
        };
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_response_cautions", CallConvs = [typeof(CallConvCdecl)])]
    public static int Cautions(ulong response, byte* buffer, long capacity, long* needed) =>
        Run(() => Text(
            string.Join('\n', Find(response).Zones[0].Requirement.Cautions.Select(caution => caution.Text)), buffer,
            capacity, needed));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_response_free", CallConvs = [typeof(CallConvCdecl)])]
    public static int Free(ulong response) => Run(() =>
    {
        if (!Responses.TryRemove(response, out _))
        {
            throw Gone(response);
        }
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_differences", CallConvs = [typeof(CallConvCdecl)])]
    public static int Differences(ulong response, double* thicknessMm, double* differences, long count) =>
        Run(() => Find(response).Differences(In(thicknessMm, count), Out(differences, count)));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_differences_interleaved", CallConvs = [typeof(CallConvCdecl)])]
    public static int DifferencesInterleaved(
        ulong response, float* buffer, long stride, long offset, float* differences, long count) => Run(() =>
    {
        int step = Positive(stride, nameof(stride));
        long numbers = Count(count) * (long)step;
        Find(response).Differences(In(buffer, numbers), Out(differences, count), stride: step, offset: Count(offset));
    });

    [UnmanagedCallersOnly(EntryPoint = "ceramic_missing_thicknesses", CallConvs = [typeof(CallConvCdecl)])]
    public static int MissingThicknesses(ulong response, int goal, double* thicknessMm, double* missingMm,
        long count) => Run(() =>
        Find(response).MissingThicknesses(
            In(thicknessMm, count), Out(missingMm, count), goal: (ThicknessGoal)InRange(goal, 0, 2, nameof(goal))));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_statuses", CallConvs = [typeof(CallConvCdecl)])]
    public static int Statuses(ulong response, double* thicknessMm, byte* statuses, long count) =>
        Run(() => Find(response).Statuses(In(thicknessMm, count), Out((PointStatus*)statuses, count)));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_colors", CallConvs = [typeof(CallConvCdecl)])]
    public static int Colors(ulong response, double* thicknessMm, double* lab, long count) =>
        Run(() => Find(response).Colors(In(thicknessMm, count), Out((Lab*)lab, count)));

    [UnmanagedCallersOnly(EntryPoint = "ceramic_last_error", CallConvs = [typeof(CallConvCdecl)])]
    public static int LastError(byte* buffer, long capacity, long* needed)
    {
        string error = _error ?? "";
        try
        {
            Text(error, buffer, capacity, needed);
            return Ok;
        }
        catch (ArgumentException)
        {
            return BadArgument;
        }
    }

    private static int Run(Action action)
    {
        try
        {
            action();
            return Ok;
        }
        catch (Exception error)
        {
            _error = error.Message;
            return error is ArgumentException ? BadArgument : error is ExchangeException ? BadFile : Failed;
        }
    }

    private static ThicknessResponse Compile(in CaseInput input)
    {
        Restoration restoration = CaseReader.Read(input);
        return ThicknessResponse.Compile(restoration, restoration.Zones[0]);
    }

    private static ulong Keep(ThicknessResponse response)
    {
        ulong number = Interlocked.Increment(ref _last);
        Responses[number] = new ThicknessMap([response]);
        return number;
    }

    private static ThicknessMap Find(ulong response) =>
        Responses.TryGetValue(response, out ThicknessMap? found) ? found : throw Gone(response);

    private static ArgumentException Gone(ulong response) =>
        new($"there is no response {response}; it was not made or is freed.");

    private static void Text(string text, byte* buffer, long capacity, long* needed)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        if (needed != null)
        {
            *needed = bytes.Length + 1;
        }

        Span<byte> room = Out(buffer, buffer == null ? 0 : capacity);
        if (room.Length > 0)
        {
            // Cut between characters, not inside one.
            int length = Math.Min(bytes.Length, room.Length - 1);
            while (length < bytes.Length && length > 0 && (bytes[length] & 0xC0) == 0x80)
            {
                length--;
            }

            bytes.AsSpan(0, length).CopyTo(room);
            room[length] = 0;
        }
    }

    internal static void Require(void* pointer, string name)
    {
        if (pointer == null)
        {
            throw new ArgumentException($"{name} must not be null.");
        }
    }

    private static ReadOnlySpan<T> In<T>(T* pointer, long count)
        where T : unmanaged => Out(pointer, count);

    private static Span<T> Out<T>(T* pointer, long count)
        where T : unmanaged
    {
        int length = Count(count);
        if (length > 0)
        {
            Require(pointer, "buffer");
        }

        return new Span<T>(pointer, length);
    }

    private static int Count(long count) => count is >= 0 and <= int.MaxValue
        ? (int)count
        : throw new ArgumentException($"a count must be in [0, {int.MaxValue}] but is {count}.");

    private static int Positive(long value, string name) =>
        InRange((int)Math.Clamp(value, int.MinValue, int.MaxValue), 1, int.MaxValue, name);

    internal static int InRange(int value, int min, int max, string name) => value >= min && value <= max
        ? value
        : throw new ArgumentException($"{name} must be in [{min}, {max}] but is {value}.");
}
