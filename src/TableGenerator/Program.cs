using CeramicOptics.TableGenerator;

// dotnet run --project src/TableGenerator : rewrites src/CeramicOptics/Data/CieTables.g.cs from the tables in cie.
string root = args.Length > 0 ? args[0] : Directory.GetCurrentDirectory();
string target = Path.Combine(root, "src", "CeramicOptics", "Data", "CieTables.g.cs");
File.WriteAllText(target, CieTableSource.Generate(Path.Combine(root, "src", "TableGenerator", "cie")));
Console.WriteLine($"wrote {target}");
