using System.Text.Json;
using CeramicOptics.Layers;
using CeramicOptics.Layers.Transport;
using CeramicOptics.Layers.TwoFlux;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>JSON form of a <see cref="MaterialCatalog"/>, version 2.</summary>
/// <remarks>
/// Version 1 names no theory: its constants are those of two-flux theory, and the thickness of the disc is in the
/// provenance.
/// </remarks>
internal static class CatalogJson
{
    private const string Format = "ceramic-optics-material-catalog";
    private const string TwoFlux = "two-flux", Transport = "radiative transfer", Core = "core",
        CoreAndVeneer = "core and veneer";
    private const int Version = 2, OldestVersion = 1;

    private static readonly string[] KeysOfVersion1 =
        ["name", "role", "family", "grade", "refractiveIndex", "wavelengths", "absorptionPerMm", "scatteringPerMm",
            "uncertainty", "provenance"];

    private static readonly string[] Keys = [.. KeysOfVersion1, "model", "discThicknessesMm", "strength"];

    public static MaterialCatalog Read(Stream stream, string source) => JsonFile.Read(
        stream, source, Format, Version,
        root =>
        {
            root.ObjectWith("$schema", "format", "version", "name", "entries");
            bool isVersion1 = root["version"].Integer() == 1;
            List<CatalogEntry> entries = [.. root["entries"].Items().Select(entry => ReadEntry(entry, isVersion1))];
            return root.Convert(() => new MaterialCatalog(root["name"].Text(), entries));
        },
        oldestVersion: OldestVersion);

    public static void Write(MaterialCatalog catalog, Stream stream) =>
        JsonFile.Write(stream, Format, Version, writer =>
    {
        writer.WriteString("name", catalog.Name);
        JsonFile.List(writer, "entries", catalog.Entries, entry => WriteEntry(writer, entry));
    });

    private static CatalogEntry ReadEntry(JsonPlace at, bool isVersion1)
    {
        at.ObjectWith(isVersion1 ? KeysOfVersion1 : Keys);
        IOpticalModel model = isVersion1 ? TwoFluxModel.Instance : ReadModel(at["model"]);
        double[] discs = isVersion1
            ? at["provenance"].TryGet("discThicknessMm") is JsonPlace thickness ? [thickness.Number()] : []
            : at.TryGet("discThicknessesMm")?.Numbers() ?? [];
        StrengthLimit? strength = at.TryGet("strength") is JsonPlace limit ? ReadStrength(limit) : null;
        WavelengthGrid grid = at["wavelengths"].Grid();
        JsonPlace index = at["refractiveIndex"].ObjectWith("constant", "cauchyNm2");
        RefractiveIndex refractiveIndex = index.Convert(() =>
            new RefractiveIndex(index["constant"].Number(), index.TryGet("cauchyNm2")?.Number() ?? 0));
        JsonPlace k = at["absorptionPerMm"], s = at["scatteringPerMm"];
        AbsorptionSpectrum absorption = k.Convert(() => new AbsorptionSpectrum(grid, k.Numbers()));
        ScatteringSpectrum scattering = s.Convert(() => new ScatteringSpectrum(grid, s.Numbers()));
        CoefficientUncertainty? uncertainty = at.TryGet("uncertainty") is JsonPlace u ? ReadUncertainty(u) : null;
        Provenance provenance = ReadProvenance(at["provenance"], isVersion1);
        return at.Convert(() => new CatalogEntry(
            new Material(at["name"].Text(), model, absorption, scattering, refractiveIndex, uncertainty, discs),
            ProvenanceNames.Role(at["role"].Text()),
            provenance,
            at.TryGet("family")?.Text(),
            at.TryGet("grade")?.Integer(),
            strength));
    }

    private static IOpticalModel ReadModel(JsonPlace at)
    {
        at.ObjectWith("theory", "anisotropy");
        string theory = at["theory"].Text();
        JsonPlace? anisotropy = at.TryGet("anisotropy");
        return theory switch
        {
            TwoFlux when anisotropy is null => TwoFluxModel.Instance,
            TwoFlux => throw anisotropy.Value.Fault("two-flux theory has no anisotropy."),
            Transport => at.Convert(() => new TransportModel(anisotropy: at["anisotropy"].Number())),
            _ => throw at["theory"].Fault($"theory '{theory}' is unknown; allowed: {TwoFlux}, {Transport}."),
        };
    }

    private static StrengthLimit ReadStrength(JsonPlace at)
    {
        at.ObjectWith("minimumMm", "scope");
        StrengthScope scope = at["scope"].Text() switch
        {
            Core => StrengthScope.Core,
            CoreAndVeneer => StrengthScope.CoreAndVeneer,
            string other => throw at["scope"].Fault($"scope '{other}' is unknown; allowed: {Core}, {CoreAndVeneer}."),
        };
        return at.Convert(() => StrengthLimit.Of(at["minimumMm"].Number(), scope));
    }

    private static CoefficientUncertainty ReadUncertainty(JsonPlace at)
    {
        at.ObjectWith(
            "absorptionPerMm", "scatteringPerMm", "correlation", "relativeScale", "commonAbsorptionPerMm",
            "commonScatteringPerMm");
        return at.Convert(() => new CoefficientUncertainty(
            at["absorptionPerMm"].Numbers(), at["scatteringPerMm"].Numbers(), at["correlation"].Numbers(),
            at["relativeScale"].Number(), at.TryGet("commonAbsorptionPerMm")?.Numbers(),
            at.TryGet("commonScatteringPerMm")?.Numbers()));
    }

    private static Provenance ReadProvenance(JsonPlace at, bool isVersion1)
    {
        at.ObjectWith(
            ["origin", "instrument", "geometry", "date", "note", .. isVersion1 ? (string[])["discThicknessMm"] : []]);
        return at.Convert(() => new Provenance(
            ProvenanceNames.Origin(at["origin"].Text()),
            at["instrument"].Text(),
            GeometryNames.Geometry(at["geometry"].Text()),
            at.TryGet("date")?.Text(),
            at.TryGet("note")?.Text() ?? ""));
    }

    private static void WriteEntry(Utf8JsonWriter writer, CatalogEntry entry)
    {
        Material material = entry.Material;
        writer.WriteString("name", entry.Name);
        writer.WriteString("role", ProvenanceNames.Name(entry.Role));
        if (entry.Family is not null)
        {
            writer.WriteString("family", entry.Family);
        }

        if (entry.Grade is int grade)
        {
            writer.WriteNumber("grade", grade);
        }

        WriteModel(writer, material.Model);
        if (material.DiscThicknessesMm.Count > 0)
        {
            JsonFile.Numbers(writer, "discThicknessesMm", [.. material.DiscThicknessesMm]);
        }

        if (entry.Strength.MinimumMm is double minimum)
        {
            writer.WriteStartObject("strength");
            writer.WriteNumber("minimumMm", minimum);
            writer.WriteString("scope", entry.Strength.Scope == StrengthScope.Core ? Core : CoreAndVeneer);
            writer.WriteEndObject();
        }

        writer.WriteStartObject("refractiveIndex");
        writer.WriteNumber("constant", material.RefractiveIndex.Constant);
        writer.WriteNumber("cauchyNm2", material.RefractiveIndex.CauchyNm2);
        writer.WriteEndObject();
        JsonFile.Grid(writer, material.Grid);
        JsonFile.Numbers(writer, "absorptionPerMm", material.Absorption.Values);
        JsonFile.Numbers(writer, "scatteringPerMm", material.Scattering.Values);
        if (material.Uncertainty is { } uncertainty)
        {
            writer.WriteStartObject("uncertainty");
            JsonFile.Numbers(writer, "absorptionPerMm", uncertainty.AbsorptionPerMm);
            JsonFile.Numbers(writer, "scatteringPerMm", uncertainty.ScatteringPerMm);
            JsonFile.Numbers(writer, "correlation", uncertainty.Correlation);
            writer.WriteNumber("relativeScale", uncertainty.RelativeScale);
            if (uncertainty.HasCommon)
            {
                JsonFile.Numbers(writer, "commonAbsorptionPerMm", uncertainty.CommonAbsorptionPerMm);
                JsonFile.Numbers(writer, "commonScatteringPerMm", uncertainty.CommonScatteringPerMm);
            }

            writer.WriteEndObject();
        }

        WriteProvenance(writer, entry.Provenance);
    }

    private static void WriteModel(Utf8JsonWriter writer, IOpticalModel model)
    {
        writer.WriteStartObject("model");
        if (model is TransportModel transport)
        {
            writer.WriteString("theory", Transport);
            writer.WriteNumber("anisotropy", transport.Anisotropy);
        }
        else
        {
            writer.WriteString("theory", TwoFlux);
        }

        writer.WriteEndObject();
    }

    private static void WriteProvenance(Utf8JsonWriter writer, Provenance provenance)
    {
        writer.WriteStartObject("provenance");
        writer.WriteString("origin", ProvenanceNames.Name(provenance.Origin));
        writer.WriteString("instrument", provenance.Instrument);
        writer.WriteString("geometry", GeometryNames.Name(provenance.Geometry));
        if (provenance.Date is not null)
        {
            writer.WriteString("date", provenance.Date);
        }

        writer.WriteString("note", provenance.Note);
        writer.WriteEndObject();
    }
}
