using System.Numerics;

namespace CeramicOptics.Mapping.Spreading;

/// <summary>A field in four bands at a node, and how it changes around it.</summary>
internal readonly record struct SpreadTerm(Vector4 Value, Vector4 X, Vector4 Y, Vector4 Z)
{
    /// <summary>The field a small step away, mm.</summary>
    public Vector4 At(Vector3 step) => Value + (step.X * X) + (step.Y * Y) + (step.Z * Z);

    /// <summary>Both fields, the other one seen from a step away.</summary>
    public SpreadTerm Plus(SpreadTerm other, Vector3 step) =>
        new(Value + other.At(step), X + other.X, Y + other.Y, Z + other.Z);

    /// <summary>The field times a weight.</summary>
    public SpreadTerm Times(Vector4 weight) => new(weight * Value, weight * X, weight * Y, weight * Z);
}
