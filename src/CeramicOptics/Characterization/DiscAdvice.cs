namespace CeramicOptics.Characterization;

/// <summary>The further disc that would tell most about K and S themselves, whatever they are for.</summary>
/// <remarks>
/// By reading noise alone, in two-flux theory: the smallest joint uncertainty of K and S (D-optimality). Where it is
/// known what the material is for, <see cref="CeramicOptics.Decisions.Discs.NextDisc"/> finds the disc that makes that
/// answer most certain, often another one.
/// </remarks>
public sealed class DiscAdvice : Formattable
{
    internal DiscAdvice(double thicknessMm, double uncertaintyRatio) =>
        (ThicknessMm, UncertaintyRatio) = (thicknessMm, uncertaintyRatio);

    /// <summary>Thickness of the disc, mm, to be read over the backings used.</summary>
    public double ThicknessMm { get; }

    /// <summary>
    /// Geometric mean over wavelengths of the area of the K-S uncertainty ellipse after such a disc, relative to
    /// before; 0 to 1.
    /// </summary>
    public double UncertaintyRatio { get; }

    /// <summary>For example "add a disc of about 0.4 mm: joint uncertainty of K and S falls to 35 %".</summary>
    private protected override string InWords(Language language) =>
        language.Text("DiscAdvice", ThicknessMm, UncertaintyRatio);
}
