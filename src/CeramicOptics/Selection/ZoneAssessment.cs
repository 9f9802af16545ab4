namespace CeramicOptics.Selection;

/// <summary>How one ceramic does in one zone.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Masking">From which thickness on it masks there.</param>
/// <param name="AtAvailable">Difference at the thickness that is there.</param>
public sealed record ZoneAssessment(Zone Zone, MaskingResult Masking, WorstCase AtAvailable)
{
    /// <summary>Available thickness less the recommended minimum, mm; negative when too thin, null when no thickness is recommended.</summary>
    public double? MarginMm => Zone.AvailableThicknessMm - Masking.RecommendedMinimumMm;

    /// <summary>True when the available thickness masks and strength allows it.</summary>
    public bool Masks => Masking.MasksAt(Zone.AvailableThicknessMm);
}
