namespace CeramicOptics.Mapping;

/// <summary>What maps of one and of two thicknesses have in common: zones by index, lengths, interleaved buffers, parts
/// for threads.</summary>
internal static class MapPoints
{
    public static T[] Zones<T>(IEnumerable<T> zones)
    {
        T[] copy = [.. Guard.Copy(zones, minimumCount: 1)];
        return copy.Length <= 256
            ? copy
            : throw new ArgumentException(
                $"zones holds {Guard.Text(copy.Length)} items; at most 256 can be indexed.", nameof(zones));
    }

    public static T ZoneOf<T>(T[] responses, ReadOnlySpan<byte> zones, int point)
    {
        if (zones.IsEmpty)
        {
            return responses.Length == 1
                ? responses[0]
                : throw new ArgumentException(
                    $"The map has {Guard.Text(responses.Length)} zones; give the zone of each point.", nameof(zones));
        }

        int zone = zones[point];
        return zone < responses.Length
            ? responses[zone]
            : throw new ArgumentOutOfRangeException(
                nameof(zones),
                $"zone of point {Guard.Text(point)} must be in [0, {Guard.Text(responses.Length - 1)}] but is "
                    + $"{Guard.Text(zone)}.");
    }

    /// <summary>The end of a run of points of one zone that begins at a point.</summary>
    public static int RunEnd(ReadOnlySpan<byte> zones, int point, int count)
    {
        if (zones.IsEmpty)
        {
            return count;
        }

        int end = point + 1;
        while (end < count && zones[end] == zones[point])
        {
            end++;
        }

        return end;
    }

    public static void CheckLengths(
        int thicknesses, int destination, int zones, string thicknessesName = "thicknessesMm")
    {
        Guard.SameLength(thicknesses, destination, thicknessesName);
        if (zones != 0)
        {
            Guard.SameLength(zones, destination, "zones");
        }
    }

    public static void CheckStride(int buffer, int destination, int zones, int stride, int offset)
    {
        Guard.InRange(stride, 1, int.MaxValue);
        Guard.InRange(offset, 0, stride - 1);
        if (zones != 0)
        {
            Guard.SameLength(zones, destination, "zones");
        }

        long needed = destination == 0 ? 0 : ((destination - 1L) * stride) + offset + 1;
        if (buffer < needed || buffer > (long)destination * stride)
        {
            throw new ArgumentException(
                $"buffer holds {Guard.Text(buffer)} numbers, which are not those of {Guard.Text(destination)} "
                    + $"points of {Guard.Text(stride)} each.", nameof(buffer));
        }
    }

    /// <summary>Runs a computation on equal parts of all points, one a thread.</summary>
    public static void InParts(int count, int threads, Action<int, int> fromAndCount)
    {
        int part = (count / threads) + 1;
        Parallel.For(0, threads, new ParallelOptions { MaxDegreeOfParallelism = threads }, thread =>
        {
            int from = Math.Min(thread * part, count), length = Math.Min(part, count - from);
            if (length > 0)
            {
                fromAndCount(from, length);
            }
        });
    }

    public static ReadOnlySpan<byte> Part(ReadOnlyMemory<byte> zones, int from, int count) =>
        zones.IsEmpty ? default : zones.Span.Slice(from, count);
}
