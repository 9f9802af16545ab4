using System.Text.Json.Serialization;
using CeramicOptics.Decisions.Matching;
using CeramicOptics.Decisions.Staining;
using Microsoft.AspNetCore.Mvc;

namespace CeramicOptics.Examples.ShadeApi;

/// <summary>Everything that goes over the wire; answers of the library write themselves.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(Question))]
[JsonSerializable(typeof(MapQuestion))]
[JsonSerializable(typeof(MapAnswer))]
[JsonSerializable(typeof(MatchRanking))]
[JsonSerializable(typeof(StainRecipe))]
[JsonSerializable(typeof(ProblemDetails))]
[JsonSerializable(typeof(double))]
[JsonSerializable(typeof(string))]
internal sealed partial class WireContext : JsonSerializerContext;
