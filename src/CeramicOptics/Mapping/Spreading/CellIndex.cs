using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>Numbers the cells of a cubic grid in the order in which they are met.</summary>
/// <remarks>Open addressing; the table doubles when it is half full.</remarks>
internal sealed class CellIndex(double sizeMm)
{
    /// <summary>Largest distance from the origin for which cells have keys of their own, mm.</summary>
    public const float LargestMm = 10_000;

    // Cells count from far outside; three times 20 bits and one of 8 kinds.
    private const int Bits = 20, First = 1 << (Bits - 1);
    private const long Empty = -1;

    private readonly float _perMm = (float)(1 / sizeMm);
    private long[] _keys = NewKeys(1 << 10);
    private int[] _numbers = new int[1 << 10];

    /// <summary>Number of cells.</summary>
    public int Count { get; private set; }

    /// <summary>Number of the cell of a position, new if it was not met before.</summary>
    /// <param name="position">Position, mm.</param>
    /// <param name="kind">0 to 7: cells at one place may be of several kinds.</param>
    public int Add(Vector3 position, int kind)
    {
        long key = KeyOf(position, kind, 0, 0, 0);
        int at = Find(key);
        if (_keys[at] == key)
        {
            return _numbers[at];
        }

        (_keys[at], _numbers[at]) = (key, Count++);
        if (2 * Count > _keys.Length)
        {
            Grow();
        }

        return Count - 1;
    }

    /// <summary>Number of the cell some cells away from a position; -1 for one that was not met.</summary>
    public int Beside(Vector3 position, int x, int y, int z)
    {
        long key = KeyOf(position, 0, x, y, z);
        int at = Find(key);
        return _keys[at] == key ? _numbers[at] : -1;
    }

    private static long[] NewKeys(int length)
    {
        long[] keys = new long[length];
        keys.AsSpan().Fill(Empty);
        return keys;
    }

    private long KeyOf(Vector3 position, int kind, int x, int y, int z)
    {
        Vector3 cell = position * _perMm;
        long i = (long)Math.Floor(cell.X) + x + First, j = (long)Math.Floor(cell.Y) + y + First;
        long k = (long)Math.Floor(cell.Z) + z + First;
        return (((((i << Bits) | j) << Bits) | k) << 3) | (long)kind;
    }

    // Fibonacci hashing.
    private int Find(long key)
    {
        int mask = _keys.Length - 1, at = (int)((ulong)(key * -7046029254386353131L) >> 33) & mask;
        while (_keys[at] != key && _keys[at] != Empty)
        {
            at = (at + 1) & mask;
        }

        return at;
    }

    private void Grow()
    {
        (long[] keys, int[] numbers) = (_keys, _numbers);
        (_keys, _numbers) = (NewKeys(4 * keys.Length), new int[4 * keys.Length]);
        for (int i = 0; i < keys.Length; i++)
        {
            if (keys[i] != Empty)
            {
                int at = Find(keys[i]);
                (_keys[at], _numbers[at]) = (keys[i], numbers[i]);
            }
        }
    }
}
