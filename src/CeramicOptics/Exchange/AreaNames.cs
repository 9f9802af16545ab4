using CeramicOptics.Layers;

namespace CeramicOptics.Exchange;

/// <summary>The area that an instrument illuminated and measured, as metadata of a file says it.</summary>
internal static class AreaNames
{
    private const string Large = "large";

    private static readonly string[] Sizes =
        ["spot_radius_mm", "window_radius_mm", "specimen_radius_mm", "specimen_side"];

    /// <summary>Metadata that this class reads.</summary>
    public static string[] Keys { get; } = ["area", .. Sizes];

    /// <summary>The area of a table; not stated where nothing is said of it.</summary>
    public static ReadingArea Area(SpectralTable table)
    {
        string? named = table.Optional("area", null);
        string[] given = [.. Sizes.Where(table.Metadata.ContainsKey)];
        if (named is not null)
        {
            return named != Large
                ? throw new ArgumentException(
                    $"area must be {Large} but is '{named}'; a window is given by spot_radius_mm and "
                        + "window_radius_mm.")
                : given.Length > 0
                ? throw new ArgumentException(
                    $"the area is stated as {Large} and by {given[0]}; state only one of them.")
                : ReadingArea.Large;
        }

        if (given.Length == 0)
        {
            return ReadingArea.NotStated;
        }

        double spot = table.RequiredNumber("spot_radius_mm"), window = table.RequiredNumber("window_radius_mm");
        if (!table.Metadata.ContainsKey("specimen_radius_mm") && !table.Metadata.ContainsKey("specimen_side"))
        {
            return ReadingArea.Circular(spot, window);
        }

        return ReadingArea.OnDisc(
            spot, window, table.RequiredNumber("specimen_radius_mm"), Side(table.Required("specimen_side")));
    }

    private static DiscSide Side(string name) => name switch
    {
        "absorbing" => DiscSide.Absorbing,
        "polished" => DiscSide.PolishedInAir,
        "reflecting" => DiscSide.Reflecting,
        _ => throw new ArgumentException(
            $"specimen_side must be absorbing, polished or reflecting but is '{name}'."),
    };
}
