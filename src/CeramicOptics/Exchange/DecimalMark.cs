namespace CeramicOptics.Exchange;

/// <summary>What stands between the whole and the decimals of a number.</summary>
public enum DecimalMark
{
    /// <summary>A point, as in 0.25.</summary>
    Point,

    /// <summary>A comma, as in 0,25.</summary>
    Comma,
}
