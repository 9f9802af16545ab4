namespace CeramicOptics.Restorations;

/// <summary>Which layers of a wall count towards a strength limit.</summary>
public enum StrengthScope
{
    /// <summary>The core ceramic alone.</summary>
    Core,

    /// <summary>Core and veneering ceramic together.</summary>
    CoreAndVeneer,
}
