namespace CeramicOptics.Exchange;

/// <summary>What a material is used for.</summary>
public enum MaterialRole
{
    /// <summary>Core or body of a restoration, in translucency grades.</summary>
    Ceramic,

    /// <summary>Veneering ceramic on a core.</summary>
    Veneer,

    /// <summary>Luting cement.</summary>
    Cement,

    /// <summary>Clear or tinted surface glaze.</summary>
    Glaze,

    /// <summary>Opaque layer that blocks the stump.</summary>
    Liner,

    /// <summary>A stain: its K and S are what one unit of load adds to the layer it is mixed into.</summary>
    Stain,
}
