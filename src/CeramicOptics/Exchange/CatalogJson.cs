using System.Text.Json;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>JSON form of a <see cref="MaterialCatalog"/>, version 1.</summary>
internal static class CatalogJson
{
    private const string Format = "ceramic-optics-material-catalog";
    private const int Version = 1;

    public static MaterialCatalog Read(Stream stream, string source) => JsonFile.Read(stream, source, Format, Version, root =>
    {
        root.ObjectWith("$schema", "format", "version", "name", "entries");
        List<CatalogEntry> entries = [.. root["entries"].Items().Select(ReadEntry)];
        return root.Convert(() => new MaterialCatalog(root["name"].Text(), entries));
    });

    public static void Write(MaterialCatalog catalog, Stream stream) => JsonFile.Write(stream, Format, Version, writer =>
    {
        writer.WriteString("name", catalog.Name);
        JsonFile.List(writer, "entries", catalog.Entries, entry => WriteEntry(writer, entry));
    });

    private static CatalogEntry ReadEntry(JsonPlace at)
    {
        at.ObjectWith(
            "name", "role", "family", "grade", "refractiveIndex", "wavelengths", "absorptionPerMm", "scatteringPerMm", "uncertainty", "provenance");
        JsonPlace wavelengths = at["wavelengths"].ObjectWith("startNm", "stepNm", "count");
        WavelengthGrid grid = wavelengths.Convert(() =>
            new WavelengthGrid(wavelengths["startNm"].Number(), wavelengths["stepNm"].Number(), wavelengths["count"].Integer()));
        JsonPlace index = at["refractiveIndex"].ObjectWith("constant", "cauchyNm2");
        RefractiveIndex refractiveIndex = index.Convert(() =>
            new RefractiveIndex(index["constant"].Number(), index.TryGet("cauchyNm2")?.Number() ?? 0));
        JsonPlace k = at["absorptionPerMm"], s = at["scatteringPerMm"];
        AbsorptionSpectrum absorption = k.Convert(() => new AbsorptionSpectrum(grid, k.Numbers()));
        ScatteringSpectrum scattering = s.Convert(() => new ScatteringSpectrum(grid, s.Numbers()));
        CoefficientUncertainty? uncertainty = at.TryGet("uncertainty") is JsonPlace u ? ReadUncertainty(u) : null;
        Provenance provenance = ReadProvenance(at["provenance"]);
        return at.Convert(() => new CatalogEntry(
            new Material(at["name"].Text(), absorption, scattering, refractiveIndex, uncertainty),
            ProvenanceNames.Role(at["role"].Text()),
            provenance,
            at.TryGet("family")?.Text(),
            at.TryGet("grade")?.Integer()));
    }

    private static CoefficientUncertainty ReadUncertainty(JsonPlace at)
    {
        at.ObjectWith("absorptionPerMm", "scatteringPerMm", "correlation", "relativeScale");
        return at.Convert(() => new CoefficientUncertainty(
            at["absorptionPerMm"].Numbers(), at["scatteringPerMm"].Numbers(), at["correlation"].Numbers(), at["relativeScale"].Number()));
    }

    private static Provenance ReadProvenance(JsonPlace at)
    {
        at.ObjectWith("origin", "instrument", "geometry", "date", "discThicknessMm", "note");
        return at.Convert(() => new Provenance(
            ProvenanceNames.Origin(at["origin"].Text()),
            at["instrument"].Text(),
            GeometryNames.Geometry(at["geometry"].Text()),
            at.TryGet("date")?.Text(),
            at.TryGet("discThicknessMm")?.Number(),
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

        writer.WriteStartObject("refractiveIndex");
        writer.WriteNumber("constant", material.RefractiveIndex.Constant);
        writer.WriteNumber("cauchyNm2", material.RefractiveIndex.CauchyNm2);
        writer.WriteEndObject();
        writer.WriteStartObject("wavelengths");
        writer.WriteNumber("startNm", material.Grid.StartNm);
        writer.WriteNumber("stepNm", material.Grid.StepNm);
        writer.WriteNumber("count", material.Grid.Count);
        writer.WriteEndObject();
        JsonFile.Numbers(writer, "absorptionPerMm", material.Absorption.Values);
        JsonFile.Numbers(writer, "scatteringPerMm", material.Scattering.Values);
        if (material.Uncertainty is { } uncertainty)
        {
            writer.WriteStartObject("uncertainty");
            JsonFile.Numbers(writer, "absorptionPerMm", uncertainty.AbsorptionPerMm);
            JsonFile.Numbers(writer, "scatteringPerMm", uncertainty.ScatteringPerMm);
            JsonFile.Numbers(writer, "correlation", uncertainty.Correlation);
            writer.WriteNumber("relativeScale", uncertainty.RelativeScale);
            writer.WriteEndObject();
        }

        Provenance provenance = entry.Provenance;
        writer.WriteStartObject("provenance");
        writer.WriteString("origin", ProvenanceNames.Name(provenance.Origin));
        writer.WriteString("instrument", provenance.Instrument);
        writer.WriteString("geometry", GeometryNames.Name(provenance.Geometry));
        if (provenance.Date is not null)
        {
            writer.WriteString("date", provenance.Date);
        }

        if (provenance.DiscThicknessMm is double thickness)
        {
            writer.WriteNumber("discThicknessMm", thickness);
        }

        writer.WriteString("note", provenance.Note);
        writer.WriteEndObject();
    }
}
