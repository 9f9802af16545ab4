using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Appearance;

/// <summary>A predicted colour with the uncertainty of each coordinate.</summary>
public sealed class UncertainColor : Formattable
{
    internal UncertainColor(UncertainValue l, UncertainValue a, UncertainValue b) => (L, A, B) = (l, a, b);

    /// <summary>L*, 0 (black) to 100 (white), with its uncertainty.</summary>
    public UncertainValue L { get; }

    /// <summary>a*, positive towards red, with its uncertainty.</summary>
    public UncertainValue A { get; }

    /// <summary>b*, positive towards yellow, with its uncertainty.</summary>
    public UncertainValue B { get; }

    /// <summary>The prediction, with every input at its value.</summary>
    public Lab Color => new(L.Value, A.Value, B.Value);

    /// <summary>For example "L* 71.2 ± 0.6, a* 1.0 ± 0.2, b* 14.1 ± 0.5".</summary>
    private protected override string InWords(Language language) => language.Text(
        "UncertainColor", L.Value, L.StandardUncertainty, A.Value, A.StandardUncertainty, B.Value,
        B.StandardUncertainty);
}
