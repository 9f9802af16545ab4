using BenchmarkDotNet.Running;
using CeramicOptics.Benchmarks;

// "guard ratios.csv" compares with the stored ratios, "guard ratios.csv --write" stores them; "peers folder" is called
// by benchmarks/peers/peers.py; "scale docs" writes docs/speed.md; anything else goes to BenchmarkDotNet.
if (args is ["guard", string path, ..])
{
    return SpeedGuard.Run(path, args.Contains("--write"));
}

if (args is ["peers", string folder])
{
    return Peers.Run(folder);
}

if (args is ["scale", string docs])
{
    return Scale.Run(docs);
}

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
return 0;
