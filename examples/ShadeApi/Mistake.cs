namespace CeramicOptics.Examples.ShadeApi;

/// <summary>What a client can get wrong; the reason of a problem that is answered with 422.</summary>
internal static class Mistake
{
    public const string Color = "impossible color", Stump = "impossible stump", Thickness = "impossible thickness";
    public const string Room = "too little room", Points = "too many points";

    /// <summary>Makes something of a client's values; what the library refuses is the client's mistake.</summary>
    public static T In<T>(string reason, Func<T> make)
        where T : class =>
        InputProblem.Try(make, out T? made, out InputProblem? problem)
            ? made
            : throw new MistakeException(reason, problem);
}
