using CeramicOptics.Examples.ShadeApi;

await Service.Build(args).RunAsync();
