using System.Text.Json;
using System.Text.Json.Serialization;

namespace CeramicOptics.Examples.SelectCeramic;

/// <summary>The case file, key by key.</summary>
internal sealed record CaseJson(
    string Name, TargetJson Target, string Reference, string Criterion, string[] Illuminants, string Observer,
    double? StructuralMinimumMm,
    double[] RangeMm, CementJson[] Cements, ZoneJson[] Zones, StainsJson Stains, UncertaintyJson Uncertainty,
    TargetJson? Wish = null, string? Note = null)
{
    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        AllowDuplicateProperties = false,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
    };
}

/// <summary>The colour wished for, and how it was read.</summary>
internal sealed record TargetJson(string Name, double[] Lab, AreaJson? Area = null, string Geometry = "di:8");

/// <summary>The area that the instrument illuminated and measured: all of a large area, or a spot and a
/// window.</summary>
internal sealed record AreaJson(bool Large = false, double? SpotRadiusMm = null, double? WindowRadiusMm = null);

/// <summary>A cement of the catalogue and the thickness of its film.</summary>
internal sealed record CementJson(string Material, double ThicknessMm);

/// <summary>A zone of the restoration.</summary>
internal sealed record ZoneJson(string Name, double AvailableMm, StumpJson Stump);

/// <summary>A stump by its reading, which says all of it, or by its colour.</summary>
internal sealed record StumpJson(
    string? File = null, double[]? Lab = null, string? Name = null, double? RefractiveIndex = null,
    AreaJson? Area = null, string? Geometry = null)
{
    /// <summary>Keys that a reading states itself, of those that are given.</summary>
    public IEnumerable<string> KeysOfColor() => new (string Key, object? Value)[]
    {
        ("name", Name), ("refractiveIndex", RefractiveIndex), ("area", Area), ("geometry", Geometry),
    }.Where(item => item.Value is not null).Select(item => item.Key);
}

/// <summary>The catalogue of stains, and the layer that carries them.</summary>
internal sealed record StainsJson(
    string File, string Carrier, string Liner, double AppliedMm, double FiringShrinkage, double MaximumLoad);

/// <summary>Standard uncertainties of the inputs.</summary>
internal sealed record UncertaintyJson(
    double WallMm, double FilmMm, double StumpReflectance, double Target, double RefractiveIndex);
