namespace CeramicOptics.Decisions.Staining;

/// <summary>Where stain is laid.</summary>
public enum StainPlacement
{
    /// <summary>On the surface, above glaze and everything else.</summary>
    Surface,

    /// <summary>On the core, under the veneer.</summary>
    UnderVeneer,
}
