namespace CeramicOptics.Exchange;

/// <summary>The words by which files name origins of data and roles of materials.</summary>
internal static class ProvenanceNames
{
    public static IEnumerable<string> OfOrigins => Values<DataOrigin>().Select(Name);

    public static DataOrigin Origin(string name) => Parse<DataOrigin>(name, "origin");

    public static MaterialRole Role(string name) => Parse<MaterialRole>(name, "role");

    public static string Name<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();

    private static T[] Values<T>()
        where T : struct, Enum
    {
#if NET
        return Enum.GetValues<T>();
#else
        return (T[])Enum.GetValues(typeof(T));
#endif
    }

    private static T Parse<T>(string name, string what)
        where T : struct, Enum
    {
        foreach (T value in Values<T>())
        {
            if (Name(value) == name)
            {
                return value;
            }
        }

        throw new ArgumentException(
            $"{what} '{name}' is unknown; allowed: {string.Join(", ", Values<T>().Select(Name))}.");
    }
}
