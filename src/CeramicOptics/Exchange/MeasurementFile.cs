using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Readings of discs, stumps and targets from tables read with <see cref="SpectralTable.Read"/>.</summary>
/// <remarks>
/// Metadata of a disc: material, refractive_index, thickness_mm; optional thickness_uncertainty_mm (0.01),
/// reading_uncertainty (0.002), cauchy_nm2 (0), geometry (di:8), coupling (air, water, glycerine or contact; contact),
/// backing_refractive_index (1.5). Readings: over_black, over_white, white_backing and, unless the black was an open
/// port or trap, black_backing. Metadata of a set of discs: material, refractive_index and, for each reading,
/// disc_COLUMN = thickness, backing, coupling (or thickness, transmittance), where backing is the column of a tile read
/// in air, or trap; optional as for one disc. Metadata of a stump: name, refractive_index; optional cauchy_nm2,
/// geometry, metal (true or false). Reading: reflectance. Metadata of a target: name and geometry, which has no default
/// here, because colours of different geometries cannot be compared. Reading: reflectance. All: optional origin
/// (measured, published, estimated, invented), instrument, date (yyyy-mm-dd), note.
/// </remarks>
public static class MeasurementFile
{
    private const string DiscPrefix = "disc_";

    private static readonly string[] OriginKeys = ["origin", "instrument", "date", "note"];

    private static readonly string[] SharedKeys = [.. OriginKeys, "refractive_index", "cauchy_nm2", "geometry"];

    private static readonly string[] DiscKeys =
        [.. SharedKeys, "material", "thickness_mm", "thickness_uncertainty_mm", "reading_uncertainty", "coupling",
            "backing_refractive_index"];

    private static readonly string[] DiscSetKeys =
        [.. SharedKeys, "material", "thickness_uncertainty_mm", "reading_uncertainty", "backing_refractive_index"];

    private static readonly string[] StumpKeys = [.. SharedKeys, "name", "metal"];

    private static readonly string[] TargetKeys = [.. OriginKeys, "name", "geometry"];

    /// <summary>Reads one disc or a set of discs from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static DiscFile ReadDiscs(string path) => ToDiscs(SpectralTable.Read(path));

    /// <summary>Reads a stump or other substrate from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Substrate ReadSubstrate(string path) => ToSubstrate(SpectralTable.Read(path));

    /// <summary>Reads a target, such as a neighbouring tooth, from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read"/> knows.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Target ReadTarget(string path) => ToTarget(SpectralTable.Read(path));

    /// <summary>One disc (metadata thickness_mm) or a set of discs (metadata disc_COLUMN) from a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">
    /// Metadata or a reading is missing, out of range, or contradicts another; names the reading, the wavelength and
    /// the value.
    /// </exception>
    public static DiscFile ToDiscs(SpectralTable table)
    {
        bool isSet = Guard.NotNull(table).Metadata.Keys.Any(
            key => key.StartsWith(DiscPrefix, StringComparison.Ordinal));
        CheckKeys(table, isSet ? DiscSetKeys : DiscKeys, isSet ? DiscPrefix : null);
        return ExchangeException.Placed(table.Source, () =>
        {
            MeasurementGeometry geometry = Geometry(table);
            return new DiscFile(isSet ? SetOf(table) : DiscOf(table, geometry), ProvenanceOf(table, geometry));
        });
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
                "false" => Substrate.FromMeasuredReflectance(table.Required("name"), table["reflectance"], Index(table),
                Geometry(table)),
                _ => throw new ArgumentException($"metal must be true or false but is '{metal}'."),
            };
        });
    }

    /// <summary>A target from a table, with the geometry that it states.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">
    /// Metadata, geometry included, or the reading is missing or out of range.
    /// </exception>
    public static Target ToTarget(SpectralTable table)
    {
        CheckKeys(Guard.NotNull(table), TargetKeys);
        return ExchangeException.Placed(table.Source, () =>
            Target.FromReflectance(
                table.Required("name"), table["reflectance"], GeometryNames.Geometry(table.Required("geometry"))));
    }

    private static DiscSet DiscOf(SpectralTable table, MeasurementGeometry geometry)
    {
        CouplingMedium? coupling = GeometryNames.Coupling(table.Optional("coupling", "contact"));
        RefractiveIndex backingIndex = table.OptionalNumber("backing_refractive_index", 1.5);
        Backing Tile(string name, ReflectanceSpectrum reading) =>
            new(Substrate.FromMeasuredReflectance(name, reading, backingIndex, geometry), coupling);

        Backing black = table.Has("black_backing")
            ? Tile("black backing", table["black_backing"])
            : new Backing(Substrate.Black, CouplingMedium.Air);
        return DiscSet.OverBlackAndWhite(
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
    }

    private static DiscSet SetOf(SpectralTable table) => new(
        table.Required("material"),
        Index(table),
        table.Metadata.Keys
            .Where(key => key.StartsWith(DiscPrefix, StringComparison.Ordinal))
            .OrderBy(key => key, StringComparer.Ordinal)
            .Select(key => ToReading(table, key)));

    private static DiscReading ToReading(SpectralTable table, string key)
    {
        string name = key.Substring(DiscPrefix.Length);
        string[] parts = [.. table.Metadata[key].Split(',').Select(part => part.Trim())];
        if (parts.Length < 2 || !TextFile.TryNumber(parts[0], out double thickness))
        {
            throw new ArgumentException(
                $"metadata '{key}' must be 'thickness, backing, coupling' or 'thickness, transmittance' but is "
                    + $"'{table.Metadata[key]}'.");
        }

        string column = table.Names.FirstOrDefault(
            item => string.Equals(item, name, StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException(
                $"metadata '{key}' has no reading of that name; found are {string.Join(", ", table.Names)}.");
        double noise = table.OptionalNumber("reading_uncertainty", 0.002), thicknessNoise = table.OptionalNumber(
            "thickness_uncertainty_mm", 0.01);
        if (parts[1] == "transmittance")
        {
            return DiscReading.Transmittance(
                column, thickness, new TransmittanceSpectrum(table.Grid, table[column].Values), noise, thicknessNoise);
        }

        MeasurementGeometry geometry = Geometry(table);
        return DiscReading.Reflectance(
            column, thickness, table[column], BackingNamed(table, key, parts, geometry), geometry, noise,
            thicknessNoise);
    }

    private static Backing BackingNamed(SpectralTable table, string key, string[] parts, MeasurementGeometry geometry)
    {
        if (parts[1] == "trap")
        {
            return new Backing(Substrate.Black, CouplingMedium.Air);
        }

        if (!table.Has(parts[1]))
        {
            throw new ArgumentException(
                $"metadata '{key}' names the backing '{parts[1]}', which is not a column; found are "
                    + $"{string.Join(", ", table.Names)}, trap.");
        }

        return new Backing(
            Substrate.FromMeasuredReflectance(parts[1], table[parts[1]],
            table.OptionalNumber("backing_refractive_index", 1.5), geometry),
            GeometryNames.Coupling(parts.Length > 2 ? parts[2] : "contact"));
    }

    private static RefractiveIndex Index(SpectralTable table) =>
        new(table.RequiredNumber("refractive_index"), table.OptionalNumber("cauchy_nm2", 0));

    private static MeasurementGeometry Geometry(SpectralTable table) =>
        GeometryNames.Geometry(table.Optional("geometry", "di:8"));

    private static Provenance ProvenanceOf(SpectralTable table, MeasurementGeometry geometry) => new(
        ProvenanceNames.Origin(table.Optional("origin", "measured")),
        table.Optional("instrument", "not stated"),
        geometry,
        table.Optional("date", null),
        table.Optional("note", ""));

    // In comma-separated files every key is ours, so an unknown one is a slip; CGATS files carry keywords of other
    // programs.
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
                throw new ExchangeException(
                    $"{table.Source}: metadata '{key}' is unknown; known are {string.Join(", ", known)}.");
            }
        }
    }
}
