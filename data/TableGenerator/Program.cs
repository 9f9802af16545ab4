using CeramicOptics.TableGenerator;

// dotnet run --project data/TableGenerator : rewrites src/CeramicOptics/Data/CieTables.g.cs from data/cie.
string root = args.Length > 0 ? args[0] : Directory.GetCurrentDirectory();
string target = Path.Combine(root, "src", "CeramicOptics", "Data", "CieTables.g.cs");
File.WriteAllText(target, CieTableSource.Generate(Path.Combine(root, "data", "cie")));
Console.WriteLine($"wrote {target}");
