using CeramicOptics.Layers;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>A cement and the film it makes.</summary>
internal sealed record CementChoice(Layer Film)
{
    public string Name => Film.Material.Name;
}
