using System.Collections.Concurrent;
using System.Text;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;

namespace CeramicOptics.Native;

/// <summary>What all functions of the header share: handles, errors, texts. No exception leaves them.</summary>
internal static unsafe class Calls
{
    public const int Ok = 0, BadArgument = 1, BadFile = 2, Failed = 3, Cancelled = 4;

    // Numbers instead of pointers: one that is gone is an error, not a crash.
    private static readonly ConcurrentDictionary<ulong, object> Handles = new();
    private static ulong _last;

    [ThreadStatic]
    private static string? _error;

    public static string Error => _error ?? "";

    public static int Live => Handles.Count;

    public static int Run(Action action)
    {
        try
        {
            action();
            return Ok;
        }
        catch (Exception error)
        {
            _error = error is ArgumentException bad ? Fields.InCsWords("argument", bad) : error.Message;
            return error switch
            {
                ArgumentException => BadArgument,
                ExchangeException => BadFile,
                OperationCanceledException => Cancelled,
                _ => Failed,
            };
        }
    }

    public static ulong Keep(object made)
    {
        ulong handle = Interlocked.Increment(ref _last);
        Handles[handle] = made;
        return handle;
    }

    public static T Find<T>(ulong handle, string name)
        where T : class => Handles.TryGetValue(handle, out object? found) && found is T kept
        ? kept
        : throw Gone(handle, name);

    public static void Free<T>(ulong handle, string name)
        where T : class
    {
        Find<T>(handle, name);
        if (!Handles.TryRemove(handle, out _))
        {
            throw Gone(handle, name);
        }
    }

    /// <summary>UTF-8 with an ending zero, cut between characters where it is too long.</summary>
    public static void Text(string text, byte* buffer, long capacity, long* needed)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        if (needed != null)
        {
            *needed = bytes.Length + 1;
        }

        Span<byte> room = buffer == null ? default : new(buffer, Fields.InRange(capacity, 0, int.MaxValue, "capacity"));
        if (room.Length > 0)
        {
            int length = Math.Min(bytes.Length, room.Length - 1);
            while (length < bytes.Length && length > 0 && (bytes[length] & 0xC0) == 0x80)
            {
                length--;
            }

            bytes.AsSpan(0, length).CopyTo(room);
            room[length] = 0;
        }
    }

    public static void CautionTexts(IEnumerable<Caution> cautions, byte* buffer, long capacity, long* needed) =>
        Text(string.Join('\n', cautions.Select(caution => caution.ToString())), buffer, capacity, needed);

    public static void CautionCodes(IEnumerable<Caution> cautions, int* codes, long capacity, long* needed)
    {
        int[] all = [.. cautions.Select(caution => CodeOf(caution.Kind))];
        if (needed != null)
        {
            *needed = all.Length;
        }

        int room = codes == null ? 0 : Fields.InRange(capacity, 0, int.MaxValue, "capacity");
        for (int i = 0; i < Math.Min(room, all.Length); i++)
        {
            codes[i] = all[i];
        }
    }

    // Numbers of the header, which stay when kinds are added.
    private static int CodeOf(CautionKind kind) => kind switch
    {
        CautionKind.StrengthNotAssessed => 1,
        CautionKind.StrengthLimitNotGiven => 2,
        CautionKind.StructuralMinimumGoverns => 3,
        CautionKind.BelowStructuralMinimum => 4,
        CautionKind.ToothReduction => 5,
        CautionKind.NotReliable => 6,
        CautionKind.AboveRange => 7,
        CautionKind.TwoFluxTheory => 8,
        CautionKind.EstimatedSpectrum => 9,
        CautionKind.ShortSpectrum => 10,
        CautionKind.UncertaintyIncomplete => 11,
        CautionKind.SidewaysLight => 12,
        CautionKind.AreaNotStated => 13,
        CautionKind.LightLostSideways => 14,
        CautionKind.EachPointAlone => 15,
        CautionKind.TooThickForTarget => 16,
        CautionKind.WallBelowGoal => 17,
        CautionKind.NoWallMeetsGoal => 18,
        CautionKind.SteepLockedWall => 19,
        CautionKind.ThickCement => 20,
        CautionKind.UnknownAnisotropy => 21,
        CautionKind.CoarseMesh => 22,
        CautionKind.DoesNotFit => 23,
        CautionKind.PredictionAlone => 24,
        _ => 99,
    };

    private static FieldException Gone(ulong handle, string name) =>
        new($"{name} {handle} is not a handle of this kind; it was not made or is freed.");
}
