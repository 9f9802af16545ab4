namespace CeramicOptics.Layers;

/// <summary>
/// How the thickness of one layer follows a thickness that varies: offset + slope times that thickness.
/// </summary>
/// <param name="Layer">Position of the layer in its stack, 0 at the surface.</param>
/// <param name="Slope">Millimetres of this layer for a millimetre of the thickness that varies, -1 to 1.</param>
/// <param name="OffsetMm">Thickness of this layer where the thickness that varies is 0, mm.</param>
/// <remarks>
/// A wall of core and veneer in fixed proportion has two parts whose slopes add up to 1; a liner that takes its room
/// from the ceramic has slope 1 and the ceramic slope -1.
/// </remarks>
internal readonly record struct LayerPart(int Layer, double Slope = 1, double OffsetMm = 0);
