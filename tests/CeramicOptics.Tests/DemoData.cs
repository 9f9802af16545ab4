using CeramicOptics.Characterization;
using CeramicOptics.Exchange;
using CeramicOptics.Restorations;

namespace CeramicOptics.Tests;

/// <summary>
/// The invented materials and stumps of the example, read and characterized by the library, with constants of radiative
/// transfer.
/// </summary>
internal static class DemoData
{
    public static string Folder { get; } = Repository.PathOf("examples", "SelectCeramic", "data");

    public static Dictionary<string, Material> Materials { get; } = Directory.GetFiles(Path.Combine(Folder, "discs"))
        .Select(path => DiscCharacterization.Find(MeasurementFile.ReadDiscs(path).Discs).ToMaterial())
        .ToDictionary(material => material.Name);

    public static Substrate LightTooth { get; } = Stump("light-tooth.csv");

    public static Substrate BrownTooth { get; } = Stump("brown-tooth.csv");

    public static Substrate NearlyBlackTooth { get; } = Stump("nearly-black-tooth.txt");

    public static Substrate MetalPost { get; } = Stump("metal-post.csv");

    public static Layer Cement { get; } = new(Materials["Tern cement, translucent"], 0.05);

    public static Ceramic GlassCeramic(int grade) =>
        new("Meadow glass-ceramic", grade, Materials[$"Meadow glass-ceramic, grade {grade}"]);

    public static Ceramic Zirconia(int grade) =>
        new("Granary zirconia", grade, Materials[$"Granary zirconia, grade {grade}"]);

    public static LayerStack Bonded(Ceramic ceramic, double thicknessMm, Substrate stump) =>
        new([new Layer(ceramic.Material, thicknessMm), Cement], stump);

    private static Substrate Stump(string file) => MeasurementFile.ReadSubstrate(Path.Combine(Folder, "stumps", file));
}
