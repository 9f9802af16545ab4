namespace CeramicOptics.Restorations;

/// <summary>What a layer of a restoration is for, from the surface down.</summary>
public enum LayerRole
{
    /// <summary>Stain in its carrier.</summary>
    Stain,

    /// <summary>Glaze.</summary>
    Glaze,

    /// <summary>Veneering ceramic on a core.</summary>
    Veneer,

    /// <summary>The ceramic that is chosen: all of a monolithic wall, or the core under a veneer.</summary>
    Core,

    /// <summary>Opaque liner under the ceramic.</summary>
    Liner,

    /// <summary>Cement, or the paste that represents it at try-in.</summary>
    Cement,
}
