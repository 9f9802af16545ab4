using CeramicOptics.Layers;

namespace CeramicOptics.Selection;

/// <summary>How a wall of any thickness is divided: one ceramic, or a veneer over it.</summary>
internal readonly record struct WallDesign(Ceramic Ceramic, Material? Veneer, double VeneerShare)
{
    /// <summary>The layers of a wall, from the surface down.</summary>
    public IEnumerable<Layer> Layers(double wallMm) => Veneer is null
        ? [new Layer(Ceramic.Material, wallMm)]
        : [new Layer(Veneer, VeneerShare * wallMm), new Layer(Ceramic.Material, (1 - VeneerShare) * wallMm)];

    /// <summary>Puts their thicknesses into those of a stack, from a position on.</summary>
    public void SetThicknesses(double[] layersMm, int position, double wallMm)
    {
        if (Veneer is not null)
        {
            layersMm[position++] = VeneerShare * wallMm;
        }

        layersMm[position] = (1 - VeneerShare) * wallMm;
    }
}
