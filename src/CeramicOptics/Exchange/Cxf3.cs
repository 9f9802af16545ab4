using System.Xml;
using System.Xml.Linq;
using CeramicOptics.Colorimetry;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>
/// Reads and writes reflectance spectra and L*a*b* readings as Color Exchange Format 3 (ISO 17972-1:2015).
/// </summary>
/// <remarks>
/// Objects that hold the requested data are read, named by their Name or else by their Id; other objects and elements
/// are skipped. Start and increment, illuminant and observer come from the element itself or from its colour
/// specification. Document types, external entities, more than 16 Mi characters and more than 32 levels are refused.
/// </remarks>
public static class Cxf3
{
    private const string TwoDegree = "2_Degree", TenDegree = "10_Degree";

    private static readonly XNamespace Core = "http://colorexchangeformat.com/CxF3-core";

    internal static RawTable Read(string text, string source, TableDialect wish)
    {
        XDocument document = Load(SafeXml.Load(text, source), source);
        Dictionary<string, (double? Start, double? Step)> specifications = Specifications(document)
            .ToDictionary(
                pair => pair.Key,
                pair => (Number(pair.Value, "StartWL", source), Number(pair.Value, "Increment", source)));
        RawTable table = new(source) { FullScale = wish.FullScale ?? 1 };
        foreach (XElement item in document.Descendants(Core + "Object"))
        {
            XElement? values = item.Descendants(Core + "ReflectanceSpectrum").FirstOrDefault();
            if (values is not null)
            {
                table.Readings.Add(
                    ReadSpectrum(values, specifications, source, NameOf(item, table.Readings.Count)));
            }
        }

        if (table.Readings.Count == 0)
        {
            throw new ExchangeException($"{source}: no object has a ReflectanceSpectrum.");
        }

        foreach (XElement told in document.Descendants(Core + "FileInformation").Elements()
            .Where(element => !element.HasElements && element.Value.Trim().Length > 0))
        {
            table.Keep(told.Name.LocalName, string.Join(" ", Words(told.Value)));
        }

        return table;
    }

    /// <summary>
    /// Writes a table; numbers read back exactly. The metadata goes into the file's Description as "key = value" lines.
    /// </summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Destination; the file must be UTF-8.</param>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        WavelengthGrid grid = Guard.NotNull(table).Grid;
        XElement measured = new(
            Core + "MeasurementSpec",
            new XElement(Core + "MeasurementType", "Spectrum_Reflectance"),
            new XElement(
                Core + "WavelengthRange", new XAttribute("StartWL", Guard.Text(grid.StartNm)),
                new XAttribute("Increment", Guard.Text(grid.StepNm))));
        Save(
            writer,
            string.Join("; ", table.Metadata.Select(pair => $"{pair.Key} = {pair.Value}")),
            Specification("reflectance", measured),
            table.All.Select(pair => (pair.Key, new XElement(
                Core + "ReflectanceSpectrum",
                new XAttribute("ColorSpecification", "reflectance"),
                new XAttribute("Name", "reflectance"),
                new XAttribute("StartWL", Guard.Text(grid.StartNm)),
                string.Join(" ", pair.Value.Values.ToArray().Select(Guard.Text))))));
    }

    /// <summary>Reads L*a*b* readings.</summary>
    /// <param name="reader">The XML text.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">
    /// The text is faulty, holds no ColorCIELab, or does not state one illuminant that the library knows and one
    /// observer (2_Degree or 10_Degree) for all of them; names the line or the object.
    /// </exception>
    public static ColorTable ReadColors(TextReader reader, string source)
    {
        XDocument document = Load(SafeXml.Load(Guard.NotNull(reader), Guard.NotBlank(source)), source);
        Dictionary<string, XElement> specifications = Specifications(document);
        List<KeyValuePair<string, Lab>> colors = [];
        (string Illuminant, string Observer)? under = null;
        foreach (XElement item in document.Descendants(Core + "Object"))
        {
            if (item.Descendants(Core + "ColorCIELab").FirstOrDefault() is not { } values)
            {
                continue;
            }

            string name = NameOf(item, colors.Count), place = $"{source}, object '{name}'";
            specifications.TryGetValue(
                values.Attribute("ColorSpecification")?.Value ?? "", out XElement? specification);
            string Told(string what) => specification?.Descendants(Core + what).FirstOrDefault()?.Value.Trim()
                ?? throw new ExchangeException($"{place}: its colour specification gives no {what}.");
            (string Illuminant, string Observer) told = (Told("Illuminant"), Told("Observer"));
            if (under is { } before && before != told)
            {
                throw new ExchangeException(
                    $"{place}: is for {told.Illuminant} and {told.Observer}, others for {before.Illuminant} and "
                        + $"{before.Observer}; one table has one of each.");
            }

            under = told;
            double Value(string axis) =>
                values.Element(Core + axis) is { } element && TextFile.TryNumber(element.Value.Trim(), out double value)
                ? value
                : throw new ExchangeException($"{place}: {axis} of ColorCIELab must be a number.");
            colors.Add(new(name, new Lab(Value("L"), Value("A"), Value("B"))));
        }

        return under is { } known
            ? ExchangeException.Placed(
                source,
                () => new ColorTable(source,
                new Colorimeter(ObserverOf(known.Observer), Illuminant.Named(known.Illuminant)), colors))
            : throw new ExchangeException($"{source}: no object has a ColorCIELab.");
    }

    /// <summary>Writes L*a*b* readings; numbers read back exactly.</summary>
    /// <param name="table">The readings.</param>
    /// <param name="writer">Destination; the file must be UTF-8.</param>
    /// <exception cref="ArgumentException">
    /// The observer is neither that of 1931 nor that of 1964; the format has no name for others.
    /// </exception>
    public static void WriteColors(ColorTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        Colorimeter under = Guard.NotNull(table).Under;
        XElement light = new(
            Core + "TristimulusSpec",
            new XElement(Core + "Illuminant", under.Illuminant.Name),
            new XElement(Core + "Observer", NameOf(under.Observer)));
        Save(writer, "", Specification("lab", light), table.Names.Select(name => (name, new XElement(
            Core + "ColorCIELab",
            new XAttribute("ColorSpecification", "lab"),
            new XElement(Core + "L", Guard.Text(table[name].L)),
            new XElement(Core + "A", Guard.Text(table[name].A)),
            new XElement(Core + "B", Guard.Text(table[name].B))))));
    }

    private static Observer ObserverOf(string name) => name switch
    {
        TwoDegree => Observer.Cie1931TwoDegree,
        TenDegree => Observer.Cie1964TenDegree,
        _ => throw new ArgumentException($"Unknown observer '{name}'; allowed: {TwoDegree}, {TenDegree}."),
    };

    private static string NameOf(Observer observer) =>
        observer == Observer.Cie1931TwoDegree ? TwoDegree
        : observer == Observer.Cie1964TenDegree ? TenDegree
        : throw new ArgumentException(
            $"CxF3 has no name for observer '{observer.Name}'; colours can be written for those of 1931 ({TwoDegree}) "
                + $"and 1964 ({TenDegree}).");

    private static XDocument Load(XDocument document, string source) => document.Root!.Name == Core + "CxF"
        ? document
        : throw new ExchangeException(
            $"{source}: the root element is '{document.Root.Name.LocalName}', not CxF of CxF3.");

    private static Dictionary<string, XElement> Specifications(XDocument document) =>
        document.Descendants(Core + "ColorSpecification")
        .Where(item => item.Attribute("Id") is not null)
        .GroupBy(item => item.Attribute("Id")!.Value)
        .ToDictionary(group => group.Key, group => group.First());

    private static string NameOf(XElement item, int before) =>
        item.Attribute("Name")?.Value ?? item.Attribute("Id")?.Value ?? Guard.Text(before + 1);

    private static XElement Specification(string id, XElement content) =>
        new(Core + "ColorSpecification", new XAttribute("Id", id), content);

    private static void Save(
        TextWriter writer, string description, XElement specification,
        IEnumerable<(string Name, XElement Values)> objects)
    {
        XElement collection = new(Core + "ObjectCollection", objects.Select((item, i) => new XElement(
            Core + "Object",
            new XAttribute("ObjectType", "Standard"),
            new XAttribute("Name", item.Name),
            new XAttribute("Id", "object" + Guard.Text(i + 1)),
            new XElement(Core + "ColorValues", item.Values))));
        XElement root = new(
            Core + "CxF",
            new XAttribute(XNamespace.Xmlns + "cc", Core.NamespaceName),
            new XElement(Core + "FileInformation", new XElement(Core + "Creator", "CeramicOptics"),
            new XElement(Core + "Description", description)),
            new XElement(
                Core + "Resources", collection, new XElement(Core + "ColorSpecificationCollection", specification)));

        // A StringWriter would have itself declared as UTF-16, whatever the file becomes.
        writer.Write("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
        using XmlWriter xml = XmlWriter.Create(
            writer,
            new XmlWriterSettings { Indent = true, CloseOutput = false, NewLineChars = "\n",
            OmitXmlDeclaration = true });
        new XDocument(root).Save(xml);
    }

    private static RawReading ReadSpectrum(
        XElement element, Dictionary<string, (double? Start, double? Step)> specifications, string source,
        string name)
    {
        string place = $"{source}, object '{name}'";
        specifications.TryGetValue(
            element.Attribute("ColorSpecification")?.Value ?? "", out (double? Start, double? Step) given);
        double start = Number(element, "StartWL", place) ?? given.Start ?? throw new ExchangeException(
            $"{place}: neither the spectrum nor its colour specification gives StartWL.");
        double step = Number(element, "Increment", place) ?? given.Step ?? throw new ExchangeException(
            $"{place}: neither the spectrum nor its colour specification gives Increment.");
        string[] words = Words(element.Value);
        double[] values = new double[words.Length];
        for (int i = 0; i < words.Length; i++)
        {
            if (!TextFile.TryNumber(words[i], out values[i]))
            {
                throw new ExchangeException($"{place}: '{words[i]}' is not a finite number.");
            }
        }

        WavelengthGrid grid = ExchangeException.Placed(place, () => new WavelengthGrid(start, step, values.Length));
        return new RawReading(
            name, [.. Enumerable.Range(0, values.Length).Select(i => grid[i])], values,
            [((IXmlLineInfo)element).LineNumber]);
    }

    private static string[] Words(string text) => text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    // An attribute of the element itself or of anything in it.
    private static double? Number(XElement element, string attribute, string place)
    {
        string? text = element.DescendantsAndSelf().Select(item => item.Attribute(attribute)?.Value)
            .FirstOrDefault(value => value is not null);
        return text is null ? null
            : TextFile.TryNumber(text, out double value) ? value
            : throw new ExchangeException($"{place}: {attribute} must be a number but is '{text}'.");
    }
}
