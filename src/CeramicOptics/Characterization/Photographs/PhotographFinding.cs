namespace CeramicOptics.Characterization.Photographs;

/// <summary>A remark about colours from a photograph, which must be shown with them.</summary>
public sealed class PhotographFinding : Formattable
{
    internal PhotographFinding(
        PhotographFindingKind kind, string? subject = null, double? value = null, CameraChannel? channel = null) =>
        (Kind, Subject, Value, Channel) = (kind, subject, value, channel);

    /// <summary>What was found.</summary>
    public PhotographFindingKind Kind { get; }

    /// <summary>Name of the patch it concerns, or of the curve; null where it concerns all.</summary>
    public string? Subject { get; }

    /// <summary>
    /// The number it states: L*a*b* units outside the gamut, CIEDE2000 of errors, mean of a clipped channel, patches
    /// for each term, exponent of display values; null for none.
    /// </summary>
    public double? Value { get; }

    /// <summary>The channel it concerns; null for all.</summary>
    public CameraChannel? Channel { get; }

    private protected override string InWords(Language language)
    {
        string? subject = Kind == PhotographFindingKind.DisplayValues && Value is double exponent
            ? language.Text("TransferCurve.Power", exponent)
            : Subject;
        return language.Text($"PhotographFinding.{Kind}", subject, Value, Channel);
    }
}
