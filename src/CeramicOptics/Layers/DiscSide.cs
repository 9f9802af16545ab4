namespace CeramicOptics.Layers;

/// <summary>What the side of a disc does to light that reaches it from inside.</summary>
public enum DiscSide
{
    /// <summary>Takes all of it, as under black paint or in a black holder.</summary>
    Absorbing,

    /// <summary>Polished, with air around: returns what Fresnel's law says of diffuse light.</summary>
    PolishedInAir,

    /// <summary>Returns all of it, as in a white or bright holder.</summary>
    Reflecting,
}
