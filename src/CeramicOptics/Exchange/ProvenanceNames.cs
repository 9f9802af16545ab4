namespace CeramicOptics.Exchange;

/// <summary>The words by which files name origins of data and roles of materials.</summary>
internal static class ProvenanceNames
{
    public static DataOrigin Origin(string name) => Parse<DataOrigin>(name, "origin");

    public static MaterialRole Role(string name) => Parse<MaterialRole>(name, "role");

    public static string Name<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();

    private static T Parse<T>(string name, string what)
        where T : struct, Enum
    {
#if NET
        T[] values = Enum.GetValues<T>();
#else
        T[] values = (T[])Enum.GetValues(typeof(T));
#endif
        foreach (T value in values)
        {
            if (Name(value) == name)
            {
                return value;
            }
        }

        throw new ArgumentException($"{what} '{name}' is unknown; known are {string.Join(", ", values.Select(Name))}.");
    }
}
