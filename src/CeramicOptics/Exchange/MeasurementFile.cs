using CeramicOptics.Characterization;
using CeramicOptics.Layers;
using CeramicOptics.Restorations;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>
/// Readings of discs, stumps and targets from tables read with <see cref="SpectralTable.Read(string, ImportOptions)"/>.
/// </summary>
/// <remarks>
/// Quantities that decide the physics have no default: geometry, coupling, backing, thickness and origin must be
/// stated. Metadata of a disc: material, refractive_index, thickness_mm, geometry (di:8, de:8, 45:0, 0:45, d:d),
/// coupling (air, water, glycerine or contact), origin (measured, published, estimated, invented); black = trap where
/// the black was an open port or trap. Optional: thickness_uncertainty_mm (0.01), reading_uncertainty (0.002, or more
/// where replicates show it), cauchy_nm2 (0), backing_refractive_index (1.5); what was assumed of these is listed in
/// <see cref="DiscFile.Assumptions"/>. Readings: over_black, over_white, white_backing and, without a trap,
/// black_backing. Metadata of a set of discs: material, refractive_index, geometry, origin and, for each reading,
/// disc_COLUMN = thickness, backing, coupling (or thickness, transmittance), where backing is the column of a tile read
/// in air, or trap; optional as for one disc. Metadata of a stump: name, refractive_index and geometry; optional
/// cauchy_nm2, metal (true or false). Reading: reflectance. Metadata of a target: name and geometry. Reading:
/// reflectance. What was assumed about the form of a stump's or target's file stands in
/// <see cref="SpectralTable.Assumptions"/> of its table. All: optional instrument, date (yyyy-mm-dd), note; and the
/// area that the instrument illuminated and measured: area = large, or spot_radius_mm and window_radius_mm, with
/// specimen_radius_mm and specimen_side (absorbing, polished, reflecting) where the side of the disc is near. Without
/// these the area is not stated, and results say so. Other metadata is kept in the table and not used, unless it is a
/// mistyped form of one of these.
/// </remarks>
public static class MeasurementFile
{
    private const string DiscPrefix = "disc_";

    private const double DefaultReadingUncertainty = 0.002, DefaultThicknessUncertaintyMm = 0.01,
        DefaultBackingIndex = 1.5;

    private static readonly string[] OriginKeys = ["origin", "instrument", "date", "note"];

    private static readonly string[] SharedKeys = [.. OriginKeys, "refractive_index", "cauchy_nm2", "geometry"];

    private static readonly string[] DiscKeys =
        [.. SharedKeys, .. AreaNames.Keys, "material", "thickness_mm", "thickness_uncertainty_mm",
            "reading_uncertainty", "coupling", "backing_refractive_index", "black"];

    private static readonly string[] DiscSetKeys =
        [.. SharedKeys, .. AreaNames.Keys, "material", "thickness_uncertainty_mm", "reading_uncertainty",
            "backing_refractive_index"];

    private static readonly string[] StumpKeys = [.. SharedKeys, .. AreaNames.Keys, "name", "metal"];

    private static readonly string[] TargetKeys = [.. OriginKeys, .. AreaNames.Keys, "name", "geometry"];

    /// <summary>Reads one disc or a set of discs from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read(string, ImportOptions)"/> knows.</param>
    /// <param name="options">What is known of the file beforehand; everything is found from it when null.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static DiscFile ReadDiscs(string path, ImportOptions? options = null) =>
        ToDiscs(SpectralTable.Read(path, options));

    /// <summary>Reads a stump or other substrate from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read(string, ImportOptions)"/> knows.</param>
    /// <param name="options">What is known of the file beforehand; everything is found from it when null.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Substrate ReadSubstrate(string path, ImportOptions? options = null) =>
        ToSubstrate(SpectralTable.Read(path, options));

    /// <summary>Reads a target, such as a neighbouring tooth, from a file.</summary>
    /// <param name="path">Path of a file that <see cref="SpectralTable.Read(string, ImportOptions)"/> knows.</param>
    /// <param name="options">What is known of the file beforehand; everything is found from it when null.</param>
    /// <exception cref="ExchangeException">The file is faulty; names the line or the metadata.</exception>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static Target ReadTarget(string path, ImportOptions? options = null) =>
        ToTarget(SpectralTable.Read(path, options));

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
        string[] unknown = KeyCheck.Unknown(table, isSet ? DiscSetKeys : DiscKeys, isSet ? DiscPrefix : null);
        return ExchangeException.Placed(table.Source, () =>
        {
            MeasurementGeometry geometry = Geometry(table);
            return new DiscFile(
                isSet ? SetOf(table, geometry) : DiscOf(table, geometry), ProvenanceOf(table, geometry),
                table.Assumptions.Concat(Assumptions(table, unknown)));
        });
    }

    /// <summary>A stump or other substrate from a table.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="ExchangeException">Metadata or the reading is missing or out of range.</exception>
    public static Substrate ToSubstrate(SpectralTable table)
    {
        KeyCheck.Unknown(Guard.NotNull(table), StumpKeys);
        return ExchangeException.Placed(table.Source, () =>
        {
            string metal = table.Optional("metal", "false");
            return metal switch
            {
                "true" => Substrate.OpaqueMetal(table.Required("name"), table["reflectance"]),
                "false" => Substrate.FromMeasuredReflectance(table.Required("name"), table["reflectance"], Index(table),
                Geometry(table), AreaNames.Area(table)),
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
        KeyCheck.Unknown(Guard.NotNull(table), TargetKeys);
        return ExchangeException.Placed(table.Source, () =>
            Target.FromReflectance(
                table.Required("name"), table["reflectance"], Geometry(table), AreaNames.Area(table)));
    }

    private static DiscSet DiscOf(SpectralTable table, MeasurementGeometry geometry)
    {
        CouplingMedium? coupling = GeometryNames.Coupling(table.Required("coupling", GeometryNames.OfCouplings));
        RefractiveIndex backingIndex = BackingIndex(table);
        Backing Tile(string name, ReflectanceSpectrum reading) =>
            new(Substrate.FromMeasuredReflectance(name, reading, backingIndex, geometry), coupling);

        bool isTrap = table.Optional("black", null) is { } black && (black == "trap"
            ? true
            : throw new ArgumentException($"metadata 'black' can only be trap but is '{black}'."));
        if (isTrap == table.Has("black_backing"))
        {
            throw new ArgumentException(isTrap
                ? "the black is stated as a trap and as the column black_backing; state only one of them."
                : "what was under the black reading is missing: a column black_backing, or black = trap for an open "
                    + "port or light trap.");
        }

        return DiscSet.OverBlackAndWhite(
            table.Required("material"),
            Index(table),
            table.RequiredNumber("thickness_mm"),
            table["over_black"],
            table["over_white"],
            isTrap
                ? new Backing(Substrate.Black, CouplingMedium.Air)
                : Tile("black backing", table["black_backing"]),
            Tile("white backing", table["white_backing"]),
            geometry,
            AreaNames.Area(table),
            ReadingUncertainty(table),
            ThicknessUncertainty(table));
    }

    private static DiscSet SetOf(SpectralTable table, MeasurementGeometry geometry) => new(
        table.Required("material"),
        Index(table),
        table.Metadata.Keys
            .Where(key => key.StartsWith(DiscPrefix, StringComparison.Ordinal))
            .OrderBy(key => key, StringComparer.Ordinal)
            .Select(key => ToReading(table, key, geometry)));

    private static DiscReading ToReading(SpectralTable table, string key, MeasurementGeometry geometry)
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
                $"metadata '{key}' has no reading of that name; found: {string.Join(", ", table.Names)}.");
        double noise = ReadingUncertainty(table), thicknessNoise = ThicknessUncertainty(table);
        if (parts[1] == "transmittance")
        {
            return DiscReading.Transmittance(
                column, thickness, new TransmittanceSpectrum(table.Grid, table[column].Values),
                AreaNames.Area(table), noise, thicknessNoise);
        }

        return DiscReading.Reflectance(
            column, thickness, table[column], BackingNamed(table, key, parts, geometry), geometry,
            AreaNames.Area(table), noise, thicknessNoise);
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
                $"metadata '{key}' names the backing '{parts[1]}', which is not a column; found: "
                    + $"{string.Join(", ", table.Names)}, trap.");
        }

        return new Backing(
            Substrate.FromMeasuredReflectance(parts[1], table[parts[1]], BackingIndex(table), geometry),
            GeometryNames.Coupling(parts.Length > 2 ? parts[2] : throw new ArgumentException(
                $"metadata '{key}' does not say what was between disc and backing: "
                    + $"{string.Join(", ", GeometryNames.OfCouplings)}.")));
    }

    private static RefractiveIndex Index(SpectralTable table) =>
        new(table.RequiredNumber("refractive_index"), table.OptionalNumber("cauchy_nm2", 0));

    private static MeasurementGeometry Geometry(SpectralTable table) =>
        GeometryNames.Geometry(table.Required("geometry", GeometryNames.OfGeometries));

    private static Provenance ProvenanceOf(SpectralTable table, MeasurementGeometry geometry) => new(
        ProvenanceNames.Origin(table.Required("origin", ProvenanceNames.OfOrigins)),
        table.Optional("instrument", "not stated"),
        geometry,
        table.Optional("date", null),
        table.Optional("note", ""));

    private static double BackingIndex(SpectralTable table) =>
        table.OptionalNumber("backing_refractive_index", DefaultBackingIndex);

    private static double ThicknessUncertainty(SpectralTable table) =>
        table.OptionalNumber("thickness_uncertainty_mm", DefaultThicknessUncertaintyMm);

    // Replicates may show more than is usual; that they show less says nothing about what they have in common.
    private static double ReadingUncertainty(SpectralTable table) => table.OptionalNumber(
        "reading_uncertainty", Math.Max(DefaultReadingUncertainty, ReplicateUncertainty(table)));

    private static double ReplicateUncertainty(SpectralTable table) => table.Names
        .Select(table.Replicates)
        .Where(replicates => replicates.Count > 1)
        .Select(replicates => ReplicateSummary.Of(replicates).TypicalStandardUncertainty)
        .DefaultIfEmpty(0)
        .Max();

    private static IEnumerable<ImportAssumption> Assumptions(SpectralTable table, string[] unknown)
    {
        if (!table.Metadata.ContainsKey("backing_refractive_index"))
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.BackingIndex,
                "backing_refractive_index is not given; 1.5, that of glass and glazed tiles, is assumed.");
        }

        if (!table.Metadata.ContainsKey("reading_uncertainty"))
        {
            double replicates = ReplicateUncertainty(table);
            yield return new ImportAssumption(
                ImportAssumptionKind.ReadingUncertainty, replicates > DefaultReadingUncertainty
                    ? $"reading_uncertainty is not given; {Guard.Text(Math.Round(replicates, 5))} is taken from the "
                        + "replicates."
                    : $"reading_uncertainty is not given; {Guard.Text(DefaultReadingUncertainty)} is assumed.");
        }

        if (!table.Metadata.ContainsKey("thickness_uncertainty_mm"))
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.ThicknessUncertainty,
                $"thickness_uncertainty_mm is not given; {Guard.Text(DefaultThicknessUncertaintyMm)} mm is assumed.");
        }

        if (!AreaNames.Keys.Any(table.Metadata.ContainsKey))
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.ReadingArea,
                "neither area nor spot_radius_mm and window_radius_mm are given; the area is taken as large.");
        }

        if (unknown.Length > 0)
        {
            yield return new ImportAssumption(
                ImportAssumptionKind.MetadataNotUsed, $"metadata not used: {string.Join(", ", unknown)}.");
        }
    }
}
