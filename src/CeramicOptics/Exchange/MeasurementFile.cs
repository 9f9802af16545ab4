using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Measurements of discs and stumps from tables read with <see cref="SpectralTable.Read"/>.</summary>
/// <remarks>
/// Metadata of a disc: material, refractive_index, thickness_mm; optional thickness_uncertainty_mm (0.01), reading_uncertainty
/// (0.002), cauchy_nm2 (0), geometry (di:8), coupling (air, water, glycerine or contact; contact), backing_refractive_index (1.5).
/// Readings: over_black, over_white, white_backing and, unless the black was an open port or trap, black_backing. Metadata of a
/// set of discs: material, refractive_index and, for each reading, disc_COLUMN = thickness, backing, coupling (or thickness, transmittance),
/// where backing is the column of a tile read in air, or trap; optional as for one disc. Metadata of a
/// stump: name, refractive_index; optional cauchy_nm2, geometry, metal (true or false). Reading: reflectance. Both: optional origin
/// (measured, published, estimated, invented), instrument, date (yyyy-mm-dd), note.
/// </remarks>
public static class MeasurementFile
{
    private static readonly string[] SharedKeys = ["refractive_index", "cauchy_nm2", "geometry", "origin", "instrument", "date", "note"];

    private static readonly string[] DiscKeys =
        [.. SharedKeys, "material", "thickness_mm", "thickness_uncertainty_mm", "reading_uncertainty", "coupling", "backing_refractive_index"];

    private const string DiscPrefix = "disc_";

    private static readonly string[] DiscSetKeys =
        [.. SharedKeys, "material", "thickness_uncertainty_mm", "reading_uncertainty", "backing_refractive_index"];

    private static readonly string[] StumpKeys = [.. SharedKeys, "name", "metal"];

    /// <summary>Reads a disc from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static (DiscMeasurement Measurement, Provenance Provenance) ReadDisc(string path) => ToDisc(SpectralTable.Read(path));

    /// <summary>Reads a set of discs from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static DiscSet ReadDiscSet(string path) => ToDiscSet(SpectralTable.Read(path));

    /// <summary>Reads a stump or other substrate from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Substrate ReadSubstrate(string path) => ToSubstrate(SpectralTable.Read(path));

    /// <summary>A disc from a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">Metadata or a reading is missing or out of range.</exception>
    public static (DiscMeasurement Measurement, Provenance Provenance) ToDisc(SpectralTable table)
    {
        CheckKeys(Guard.NotNull(table), DiscKeys);
        return ExchangeException.Placed(table.Source, () =>
        {
            MeasurementGeometry geometry = GeometryNames.Geometry(table.Optional("geometry", "di:8"));
            CouplingMedium? coupling = GeometryNames.Coupling(table.Optional("coupling", "contact"));
            RefractiveIndex backingIndex = table.OptionalNumber("backing_refractive_index", 1.5);
            Backing Tile(string name, ReflectanceSpectrum reading) =>
                new(Substrate.FromMeasuredReflectance(name, reading, backingIndex, geometry), coupling);

            Backing black = table.Has("black_backing")
                ? Tile("black backing", table["black_backing"])
                : new Backing(Substrate.Black, CouplingMedium.Air);
            DiscMeasurement measurement = new(
                table.Required("material"),
                Index(table),
                table.RequiredNumber("thickness_mm"),
                table["over_black"],
                table["over_white"],
                black,
                Tile("white backing", table["white_backing"]),
                geometry,
                table.OptionalNumber("reading_uncertainty", 0.002),
                table.OptionalNumber("thickness_uncertainty_mm", 0.01));
            return (measurement, ProvenanceOf(table, geometry, measurement.ThicknessMm));
        });
    }

    /// <summary>A set of discs from a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">Metadata or a reading is missing, out of range, or contradicts another; names the reading, the wavelength and the value.</exception>
    public static DiscSet ToDiscSet(SpectralTable table)
    {
        CheckKeys(Guard.NotNull(table), DiscSetKeys, DiscPrefix);
        return ExchangeException.Placed(table.Source, () => new DiscSet(
            table.Required("material"),
            Index(table),
            table.Metadata.Keys.Where(key => key.StartsWith(DiscPrefix, StringComparison.Ordinal)).OrderBy(key => key, StringComparer.Ordinal).Select(key => ToReading(table, key))));
    }

    /// <summary>A stump or other substrate from a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">Metadata or the reading is missing or out of range.</exception>
    public static Substrate ToSubstrate(SpectralTable table)
    {
        CheckKeys(Guard.NotNull(table), StumpKeys);
        return ExchangeException.Placed(table.Source, () =>
        {
            string metal = table.Optional("metal", "false");
            return metal switch
            {
                "true" => Substrate.OpaqueMetal(table.Required("name"), table["reflectance"]),
                "false" => Substrate.FromMeasuredReflectance(
                    table.Required("name"), table["reflectance"], Index(table), GeometryNames.Geometry(table.Optional("geometry", "di:8"))),
                _ => throw new ArgumentException($"metal must be true or false but is '{metal}'."),
            };
        });
    }

    private static DiscReading ToReading(SpectralTable table, string key)
    {
        string name = key.Substring(DiscPrefix.Length);
        string[] parts = [.. table.Metadata[key].Split(',').Select(part => part.Trim())];
        if (parts.Length < 2 || !TextFile.TryNumber(parts[0], out double thickness))
        {
            throw new ArgumentException($"metadata '{key}' must be 'thickness, backing, coupling' or 'thickness, transmittance' but is '{table.Metadata[key]}'.");
        }

        string column = table.Names.FirstOrDefault(item => string.Equals(item, name, StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"metadata '{key}' has no reading of that name; found are {string.Join(", ", table.Names)}.");
        double noise = table.OptionalNumber("reading_uncertainty", 0.002), thicknessNoise = table.OptionalNumber("thickness_uncertainty_mm", 0.01);
        if (parts[1] == "transmittance")
        {
            return DiscReading.Transmittance(
                column, thickness, new TransmittanceSpectrum(table.Grid, table[column].Values), noise, thicknessNoise);
        }

        MeasurementGeometry geometry = GeometryNames.Geometry(table.Optional("geometry", "di:8"));
        return DiscReading.Reflectance(column, thickness, table[column], BackingNamed(table, key, parts, geometry), geometry, noise, thicknessNoise);
    }

    private static Backing BackingNamed(SpectralTable table, string key, string[] parts, MeasurementGeometry geometry)
    {
        if (parts[1] == "trap")
        {
            return new Backing(Substrate.Black, CouplingMedium.Air);
        }

        if (!table.Has(parts[1]))
        {
            throw new ArgumentException($"metadata '{key}' names the backing '{parts[1]}', which is no column; found are {string.Join(", ", table.Names)}, trap.");
        }

        return new Backing(
            Substrate.FromMeasuredReflectance(parts[1], table[parts[1]], table.OptionalNumber("backing_refractive_index", 1.5), geometry),
            GeometryNames.Coupling(parts.Length > 2 ? parts[2] : "contact"));
    }

    private static RefractiveIndex Index(SpectralTable table) =>
        new(table.RequiredNumber("refractive_index"), table.OptionalNumber("cauchy_nm2", 0));

    private static Provenance ProvenanceOf(SpectralTable table, MeasurementGeometry geometry, double? thicknessMm)
    {
        string origin = table.Optional("origin", "measured");
        return new Provenance(
            ProvenanceNames.Origin(origin), table.Optional("instrument", "not stated"), geometry, table.Optional("date", null), thicknessMm, table.Optional("note", ""));
    }

    // In comma-separated files every key is ours, so an unknown one is a slip; CGATS files carry keywords of other programs.
    private static void CheckKeys(SpectralTable table, string[] known, string? prefix = null)
    {
        if (!table.Source.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
        {
            return;
        }

        foreach (string key in table.Metadata.Keys)
        {
            if (Array.IndexOf(known, key) < 0 && (prefix is null || !key.StartsWith(prefix, StringComparison.Ordinal)))
            {
                throw new ExchangeException($"{table.Source}: metadata '{key}' is unknown; known are {string.Join(", ", known)}.");
            }
        }
    }
}
