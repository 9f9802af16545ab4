namespace CeramicOptics.Examples.ShadeApi;

/// <summary>A client asked what cannot be answered; any other exception is a bug of the program.</summary>
internal sealed class MistakeException(string reason, string message, Exception? inner = null)
    : Exception(message, inner)
{
    /// <summary>One of the reasons of <see cref="Mistake"/>.</summary>
    public string Reason { get; } = reason;
}
