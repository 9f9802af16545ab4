namespace CeramicOptics.Decisions.Delivered;

/// <summary>A quantity that delivered pieces can correct.</summary>
public enum CorrectedKind
{
    /// <summary>Delivered minus planned thickness of every wall, mm.</summary>
    WallThickness,

    /// <summary>True minus stated film of a cement, mm.</summary>
    CementFilm,

    /// <summary>True minus stated internal reflectance of every stump.</summary>
    StumpReflectance,

    /// <summary>True K of a ceramic as a multiple of that from its discs.</summary>
    AbsorptionScale,

    /// <summary>True S of a ceramic as a multiple of that from its discs.</summary>
    ScatteringScale,

    /// <summary>K of one batch as a multiple of that of its ceramic.</summary>
    BatchAbsorptionScale,

    /// <summary>S of one batch as a multiple of that of its ceramic.</summary>
    BatchScatteringScale,

    /// <summary>L* of pieces of one furnace beyond everything else.</summary>
    FurnaceL,

    /// <summary>a* of pieces of one furnace beyond everything else.</summary>
    FurnaceA,

    /// <summary>b* of pieces of one furnace beyond everything else.</summary>
    FurnaceB,
}
