namespace CeramicOptics.Native;

/// <summary>What is wrong with a field, already by the names of the header.</summary>
internal sealed class FieldException(string message) : ArgumentException(message);
