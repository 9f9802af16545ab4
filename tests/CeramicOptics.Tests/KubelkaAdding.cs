namespace CeramicOptics.Tests;

/// <summary>Kubelka 1954, J. Opt. Soc. Am. 44:330-335, apart from the library, which adds level by level.</summary>
internal static class KubelkaAdding
{
    /// <summary>An element on top of another.</summary>
    public static LayerOptics Over(this LayerOptics upper, LayerOptics lower)
    {
        double between = 1 - (upper.ReflectanceFromBelow * lower.ReflectanceFromAbove);
        return new LayerOptics(
            upper.ReflectanceFromAbove
                + (upper.TransmittanceDown * upper.TransmittanceUp * lower.ReflectanceFromAbove / between),
            lower.ReflectanceFromBelow
                + (lower.TransmittanceUp * lower.TransmittanceDown * upper.ReflectanceFromBelow / between),
            upper.TransmittanceDown * lower.TransmittanceDown / between,
            upper.TransmittanceUp * lower.TransmittanceUp / between);
    }
}
