namespace CeramicOptics.Examples.ShadeApi;

/// <summary>A client asked what cannot be answered; any other exception is a bug of the program.</summary>
internal sealed class MistakeException(string reason, InputProblem? problem, string? detail = null)
    : Exception(detail ?? problem?.ToString())
{
    /// <summary>One of the reasons of <see cref="Mistake"/>.</summary>
    public string Reason { get; } = reason;

    /// <summary>The value that is wrong and its range; null where there are too many points.</summary>
    public InputProblem? Problem { get; } = problem;
}
