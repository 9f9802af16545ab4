using System.Numerics;

namespace CeramicOptics.Examples.WallThickness;

/// <summary>A direction that the crown is looked at from.</summary>
/// <param name="Name">What a dentist calls it.</param>
/// <param name="Right">Direction on the tooth that points right in the picture.</param>
/// <param name="Up">Direction that points up.</param>
/// <param name="Towards">Direction that points to the viewer.</param>
internal sealed record View(string Name, Vector3 Right, Vector3 Up, Vector3 Towards)
{
    public static View Labial { get; } = new("labial", Vector3.UnitX, Vector3.UnitZ, -Vector3.UnitY);

    public static View Palatal { get; } = new("palatal", -Vector3.UnitX, Vector3.UnitZ, Vector3.UnitY);

    /// <summary>From the incisal edge, labial side down.</summary>
    public static View Incisal { get; } = new("incisal", Vector3.UnitX, Vector3.UnitY, Vector3.UnitZ);
}
