using CeramicOptics.Exchange;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>
/// Chooses a ceramic for one restoration: disc readings to constants, constants to colours, colours to a ranking.
/// </summary>
internal static class Program
{
    private const string Help =
        """
        SelectCeramic: which ceramic, and how thick, hides the stump?

        usage: SelectCeramic [case.json] [--discs FOLDER] [--output FOLDER] [--help]

          case.json         the case: target, zones with stump and available thickness, structural minimum
                            (default: the invented case that comes with the program)
          --discs FOLDER    disc readings (.csv or CGATS text) from which the catalogue is made
                            (default: the invented discs that come with the program)
          --output FOLDER   where catalog.json, match.json, report.html, report.de.html and select-ceramic.png are
                            written (default: out)

        The data that comes with the program is invented. Masking is not strength; see the cautions in the output.
        """;

    private static int Main(string[] args)
    {
        string data = Path.Combine(AppContext.BaseDirectory, "data");
        string? given = null;
        string discs = Path.Combine(data, "discs"), output = "out";
        for (int i = 0; i < args.Length; i++)
        {
            switch (args[i])
            {
                case "--help" or "-h":
                    Console.WriteLine(Help);
                    return 0;
                case "--discs" when i + 1 < args.Length:
                    discs = args[++i];
                    break;
                case "--output" when i + 1 < args.Length:
                    output = args[++i];
                    break;
                case var option when option.StartsWith('-'):
                    Console.Error.WriteLine($"Unknown or incomplete option '{option}'. Try --help.");
                    return 2;
                case var second when given is not null:
                    Console.Error.WriteLine($"One case at a time: '{given}' or '{second}'. Try --help.");
                    return 2;
                default:
                    given = args[i];
                    break;
            }
        }

        try
        {
            Run(given ?? Path.Combine(data, "case.json"), discs, output);
            return 0;
        }
        catch (Exception error) when (
            error is ExchangeException or IOException or UnauthorizedAccessException or ArgumentException
                or InvalidOperationException)
        {
            Console.Error.WriteLine(error.Message);
            return 1;
        }
    }

    private static void Run(string casePath, string discs, string output)
    {
        MaterialCatalog catalog = CatalogBuilder.FromDiscs(discs, Console.Out);
        CaseFile caseFile = CaseFile.Read(casePath, catalog);
        Task<WholeCase> deciding = Task.Run(() => WholeCase.Decide(caseFile, catalog, new ProgressBar()));
        RankedCement[] rankings = Concurrently.Each(
            caseFile.Cements, cement => new RankedCement(caseFile, catalog.Ceramics, cement));
        Directory.CreateDirectory(output);
        string catalogPath = Path.Combine(output, "catalog.json"), picturePath = Path.Combine(
            output, "select-ceramic.png");
        Task drawing = Task.Run(() => Picture.Save(picturePath, caseFile, catalog, rankings[0]));
        WholeCase decided = deciding.GetAwaiter().GetResult();
        Report.WriteRankings(Console.Out, caseFile, rankings);
        WholeCaseText.Write(Console.Out, caseFile, decided);
        Report.WriteCautions(Console.Out, rankings.SelectMany(item => item.Ranking.Cautions).Concat(decided.Cautions));
        string reportPath = Path.Combine(output, "report.html"), germanPath = Path.Combine(output, "report.de.html");
        string resultPath = Path.Combine(output, "match.json");
        Concurrently.All(
            () => HtmlReport.Save(reportPath, caseFile, decided, PageWords.English),
            () => HtmlReport.Save(germanPath, caseFile, decided, PageWords.German),
            () => catalog.Save(catalogPath),
            () =>
            {
                using FileStream result = File.Create(resultPath);
                ResultJson.Write(decided.Ranking, result);
            });
        drawing.GetAwaiter().GetResult();

        Console.WriteLine($"\nwritten: {catalogPath}, {picturePath}, {reportPath}, {germanPath}, {resultPath}");
    }
}
