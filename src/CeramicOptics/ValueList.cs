using System.Collections.ObjectModel;
using System.Globalization;

namespace CeramicOptics;

/// <summary>
/// A read-only list that equals another of equal items, so that records which hold lists are equal by value throughout.
/// </summary>
internal sealed class ValueList<T>(T[] items) : ReadOnlyCollection<T>(items)
{
    public override bool Equals(object? obj) => obj is ValueList<T> other && this.SequenceEqual(other);

    /// <summary>Its items, as records with lists show them.</summary>
    public override string ToString() =>
        $"[{string.Join(", ", this.Select(item => Convert.ToString(item, CultureInfo.InvariantCulture)))}]";

    public override int GetHashCode()
    {
        int hash = Count;
        foreach (T item in this)
        {
            hash = unchecked((hash * 31) + (item?.GetHashCode() ?? 0));
        }

        return hash;
    }
}
