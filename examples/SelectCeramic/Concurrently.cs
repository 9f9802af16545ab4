namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>Questions that do not depend on one another, on all processors; errors come out as they are.</summary>
internal static class Concurrently
{
    /// <summary>All of several tasks.</summary>
    public static void All(params Action[] actions) => Each(actions, action =>
    {
        action();
        return true;
    });

    /// <summary>An answer for each item, in their order.</summary>
    public static TAnswer[] Each<TItem, TAnswer>(IEnumerable<TItem> items, Func<TItem, TAnswer> answer)
    {
        Task<TAnswer>[] tasks = [.. items.Select(item => Task.Run(() => answer(item)))];
        return [.. tasks.Select(task => task.GetAwaiter().GetResult())];
    }
}
