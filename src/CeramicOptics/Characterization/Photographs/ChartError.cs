using CeramicOptics.Colorimetry;
using CeramicOptics.Colorimetry.Differences;

namespace CeramicOptics.Characterization.Photographs;

/// <summary>What the correction makes of a patch of the chart when it is fitted to all others.</summary>
public sealed class ChartError : Formattable
{
    internal ChartError(ChartPatch patch, Lab leftOut) =>
        (Patch, LeftOut, Difference) = (patch, leftOut, ColorDifference.Ciede2000(patch.Known, leftOut));

    /// <summary>The patch.</summary>
    public ChartPatch Patch { get; }

    /// <summary>Its colour as predicted from all others.</summary>
    public Lab LeftOut { get; }

    /// <summary>CIEDE2000 of the prediction from the known colour.</summary>
    public double Difference { get; }

    /// <summary>For example "patch 7: 1.32".</summary>
    private protected override string InWords(Language language) =>
        language.Text("ChartError", Patch.Reading.Name, Difference);
}
