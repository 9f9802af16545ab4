namespace CeramicOptics.Exchange;

/// <summary>What was assumed about a file that does not say it.</summary>
public enum ImportAssumptionKind
{
    /// <summary>The bytes are not UTF-8 and were read as Latin-1.</summary>
    Encoding,

    /// <summary>No line names the columns; readings are named by their position.</summary>
    NoHeadings,

    /// <summary>A line under the headings holds units and is no data.</summary>
    UnitRow,

    /// <summary>Nothing says whether values are percent or 0 to 1; the values themselves decide.</summary>
    Scale,

    /// <summary>Wavelengths fall and were reversed.</summary>
    WavelengthsTurned,

    /// <summary>Columns that hold no readings were skipped.</summary>
    ColumnsNotUsed,

    /// <summary>Lines after the data were skipped.</summary>
    LinesNotUsed,

    /// <summary>Several readings have one name and are taken as replicates of it.</summary>
    Replicates,

    /// <summary>Readings were brought to other wavelengths.</summary>
    Resampled,

    /// <summary>Metadata that the library does not know was kept and not used.</summary>
    MetadataNotUsed,

    /// <summary>The refractive index of the backings.</summary>
    BackingIndex,

    /// <summary>Standard uncertainty of a reading.</summary>
    ReadingUncertainty,

    /// <summary>Standard uncertainty of a thickness.</summary>
    ThicknessUncertainty,

    /// <summary>The area that the instrument illuminated and measured, taken as large.</summary>
    ReadingArea,
}
