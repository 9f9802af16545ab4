namespace CeramicOptics.Decisions.Delivered;

/// <summary>The property by which pieces are grouped.</summary>
public enum AgreementBy
{
    /// <summary>All pieces together.</summary>
    All,

    /// <summary>By ceramic.</summary>
    Ceramic,

    /// <summary>By batch of a ceramic.</summary>
    Batch,

    /// <summary>By cement; pieces that were read before bonding are a group of their own.</summary>
    Cement,

    /// <summary>By furnace; pieces without one are a group of their own.</summary>
    Furnace,
}
