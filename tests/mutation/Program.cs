using System.Diagnostics;
using System.Globalization;
using CeramicOptics.Mutation;

// dotnet run -c Release --project tests/mutation -- <seed> <mutants a group> <name>=<folder>[+<folder>] ...
// Draws single faults, builds the library with all of them asleep, wakes one after the other and runs the tests that
// reach it. Results: mutants.tsv, coverage.tsv and results.tsv in bin/mutants-<seed>.
string[] words = args;
if (words[0] is "cover" or "run" or "again")
{
    string here = AppContext.BaseDirectory;
    List<Mutant> sampled = [.. File.ReadLines(Path.Combine(here, "mutants.tsv")).Select(Mutant.Parse)];
    switch (words[0])
    {
        case "cover":
            Judge.Cover(here, sampled.Max(m => m.Id) + 1);
            break;
        case "run":
            Judge.Run(here, sampled);
            break;
        default:
            Judge.Again(here, sampled.Single(m => m.Id == Number(words[1])));
            break;
    }

    return;
}

string root = AppContext.BaseDirectory;
while (!File.Exists(Path.Combine(root, "CeramicOptics.sln")))
{
    root = Path.GetDirectoryName(root)!;
}

string folder = Path.Combine(root, "tests", "mutation", "bin", "mutants-" + words[0]);
Directory.CreateDirectory(folder);
string results = Path.Combine(folder, "results.tsv"), library = Path.Combine(folder, "CeramicOptics.dll");
if (!File.Exists(Path.Combine(folder, "coverage.tsv")))
{
    foreach (string file in Directory.GetFiles(AppContext.BaseDirectory))
    {
        File.Copy(file, Path.Combine(folder, Path.GetFileName(file)), overwrite: true);
    }

    List<Mutant> drawn = new Library(root).Write(
        words.Skip(2).Select(word => word.Split('=')).Select(word => (word[0], word[1].Split('+'))),
        Number(words[1]), Number(words[0]), library);
    File.WriteAllLines(Path.Combine(folder, "mutants.tsv"), drawn.Select(m => m.ToString()));
    Start("cover");
}

List<Mutant> mutants = [.. File.ReadLines(Path.Combine(folder, "mutants.tsv")).Select(Mutant.Parse)];
for (int round = 0; round < 100 && Start("run") != 0; round++)
{
}

// Static data is made once a process: each mutant in it that is not found yet gets a process of its own.
ILookup<int, string> verdicts = Verdicts();
foreach (string id in File.ReadLines(Path.Combine(folder, "coverage.tsv"))
    .Select(line => line.Split('\t')).Where(part => part[0] == Judge.StaticData)
    .SelectMany(part => part[4].Split(',', StringSplitOptions.RemoveEmptyEntries))
    .Where(id => verdicts[Number(id)].Last() is "survived" or "not reached"))
{
    Start("again", id);
}

verdicts = Verdicts();
Mutant[] alive = [.. mutants.Where(m => verdicts[m.Id].Last() is "survived" or "not reached")];
foreach (var group in mutants.GroupBy(m => m.Group))
{
    int total = group.Count(), survived = alive.Count(m => m.Group == group.Key);
    double share = 1 - ((double)survived / total), error = 1.96 * Math.Sqrt(share * (1 - share) / total);
    Console.WriteLine(FormattableString.Invariant(
        $"{group.Key}: {total} mutants, {survived} survived, {100 * share:0.0} % +- {100 * error:0.0} % found"));
}

foreach (Mutant mutant in alive)
{
    Console.WriteLine($"{verdicts[mutant.Id].Last()}\t{mutant}");
}

int Start(params string[] command)
{
    using Process child = Process.Start(
        new ProcessStartInfo("dotnet", ["exec", Path.Combine(folder, "Mutation.dll"), .. command]))!;
    child.WaitForExit();
    return child.ExitCode;
}

ILookup<int, string> Verdicts() => File.ReadLines(results).Select(line => line.Split('\t'))
    .ToLookup(part => Number(part[0]), part => part[1]);

static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
