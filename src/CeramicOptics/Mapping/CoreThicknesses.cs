namespace CeramicOptics.Mapping;

/// <summary>Cores that meet the criterion by colour and reliably, without strength; NaN where there are none, infinite
/// ends where thicker ones do too.</summary>
internal readonly record struct CoreThicknesses(
    double ByColorMm, double ByColorUpToMm, double ReliableMm, double ReliableUpToMm);
