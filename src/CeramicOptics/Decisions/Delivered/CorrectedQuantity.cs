using CeramicOptics.Colorimetry;

namespace CeramicOptics.Decisions.Delivered;

/// <summary>One quantity corrected by delivered pieces: before, after, and with uncertainties.</summary>
public sealed class CorrectedQuantity : Formattable
{
    internal CorrectedQuantity(QuantityKey key, double before, double beforeSd, double after, double afterSd,
        double learned, ColorDeviation effect) =>
        (Kind, Subject, Batch, Before, BeforeUncertainty, After, AfterUncertainty, Learned, MeanEffect) = (
            key.Kind, key.Subject, key.Batch, before, beforeSd, after, afterSd, learned, effect);

    /// <summary>The quantity.</summary>
    public CorrectedKind Kind { get; }

    /// <summary>What it belongs to, such as a ceramic, a cement or a furnace.</summary>
    public string Subject { get; }

    /// <summary>The batch of the ceramic it belongs to; null for everything else.</summary>
    public string? Batch { get; }

    /// <summary>Value before any piece: 1 for a scale, else 0; in the unit of <see cref="Kind"/>.</summary>
    public double Before { get; }

    /// <summary>Standard uncertainty before any piece, from discs, restorations and options.</summary>
    public double BeforeUncertainty { get; }

    /// <summary>Value after the pieces.</summary>
    public double After { get; }

    /// <summary>
    /// Standard uncertainty after the pieces, including the correlation of this quantity with the others.
    /// </summary>
    public double AfterUncertainty { get; }

    /// <summary>Share of the variance that the pieces removed, 0 (nothing was learned) to 1.</summary>
    public double Learned { get; }

    /// <summary>What this correction alone does to predicted colours, mean over the pieces it concerns.</summary>
    public ColorDeviation MeanEffect { get; }

    /// <summary>Quantity, values before and after, and its effect on colours.</summary>
    private protected override string InWords(Language language) => language.Text(
        "CorrectedQuantity", Kind, QuantityKey.Title(language, Subject, Batch), Before, BeforeUncertainty, After,
        AfterUncertainty, MeanEffect);
}
