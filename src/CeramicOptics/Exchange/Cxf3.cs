using System.Xml;
using System.Xml.Linq;
using CeramicOptics.Spectra;

namespace CeramicOptics.Exchange;

/// <summary>Reads and writes reflectance spectra as Color Exchange Format 3 (ISO 17972-1:2015).</summary>
/// <remarks>
/// Objects with a ReflectanceSpectrum are read, named by their Name or else their Id; other objects and elements are passed over. Start
/// and increment come from the spectrum itself or from its colour specification. Document types, external entities, more than 16 Mi
/// characters and more than 32 levels are refused.
/// </remarks>
public static class Cxf3
{
    private static readonly XNamespace Core = "http://colorexchangeformat.com/CxF3-core";

    /// <summary>Reads a table.</summary>
    /// <param name="reader">The XML text.</param>
    /// <param name="source">Name of the file for messages.</param>
    /// <exception cref="ExchangeException">The text is faulty or holds no reflectance spectrum; names the line or the object.</exception>
    public static SpectralTable Read(TextReader reader, string source)
    {
        Guard.NotNull(reader);
        Guard.NotBlank(source);
        XDocument document = SafeXml.Load(reader, source);
        if (document.Root!.Name != Core + "CxF")
        {
            throw new ExchangeException($"{source}: the root element is '{document.Root.Name.LocalName}', not CxF of CxF3.");
        }

        Dictionary<string, (double? Start, double? Step)> specifications = document.Descendants(Core + "ColorSpecification")
            .Where(item => item.Attribute("Id") is not null)
            .GroupBy(item => item.Attribute("Id")!.Value)
            .ToDictionary(group => group.Key, group => (Number(group.First(), "StartWL", source), Number(group.First(), "Increment", source)));
        List<(string, ReflectanceSpectrum)> spectra = [];
        foreach (XElement item in document.Descendants(Core + "Object"))
        {
            XElement? values = item.Descendants(Core + "ReflectanceSpectrum").FirstOrDefault();
            if (values is not null)
            {
                string name = item.Attribute("Name")?.Value ?? item.Attribute("Id")?.Value ?? Guard.Text(spectra.Count + 1);
                spectra.Add((name, ReadSpectrum(values, specifications, $"{source}, object '{name}'")));
            }
        }

        if (spectra.Count == 0)
        {
            throw new ExchangeException($"{source}: no object has a ReflectanceSpectrum.");
        }

        return ExchangeException.Placed(source, () => SpectralTable.Create(source, spectra.Select(item => new KeyValuePair<string, ReflectanceSpectrum>(item.Item1, item.Item2))));
    }

    /// <summary>Writes a table; numbers read back exactly. The metadata goes into the file's Description as "key = value" lines.</summary>
    /// <param name="table">The table.</param>
    /// <param name="writer">Where to.</param>
    public static void Write(SpectralTable table, TextWriter writer)
    {
        Guard.NotNull(writer);
        WavelengthGrid grid = Guard.NotNull(table).Grid;
        XElement specification = new(
            Core + "ColorSpecification",
            new XAttribute("Id", "reflectance"),
            new XElement(
                Core + "MeasurementSpec",
                new XElement(Core + "MeasurementType", "Spectrum_Reflectance"),
                new XElement(Core + "WavelengthRange", new XAttribute("StartWL", Guard.Text(grid.StartNm)), new XAttribute("Increment", Guard.Text(grid.StepNm)))));
        XElement objects = new(Core + "ObjectCollection", table.Names.Select((name, i) => new XElement(
            Core + "Object",
            new XAttribute("ObjectType", "Standard"),
            new XAttribute("Name", name),
            new XAttribute("Id", "object" + Guard.Text(i + 1)),
            new XElement(
                Core + "ColorValues",
                new XElement(
                    Core + "ReflectanceSpectrum",
                    new XAttribute("ColorSpecification", "reflectance"),
                    new XAttribute("Name", "reflectance"),
                    new XAttribute("StartWL", Guard.Text(grid.StartNm)),
                    string.Join(" ", table[name].Values.ToArray().Select(Guard.Text)))))));
        XElement root = new(
            Core + "CxF",
            new XAttribute(XNamespace.Xmlns + "cc", Core.NamespaceName),
            new XElement(
                Core + "FileInformation",
                new XElement(Core + "Creator", "CeramicOptics"),
                new XElement(Core + "Description", string.Join("; ", table.Metadata.Select(pair => $"{pair.Key} = {pair.Value}")))),
            new XElement(Core + "Resources", objects, new XElement(Core + "ColorSpecificationCollection", specification)));
        using XmlWriter xml = XmlWriter.Create(writer, new XmlWriterSettings { Indent = true, CloseOutput = false, NewLineChars = "\n" });
        new XDocument(root).Save(xml);
    }

    private static ReflectanceSpectrum ReadSpectrum(
        XElement element, Dictionary<string, (double? Start, double? Step)> specifications, string place)
    {
        specifications.TryGetValue(element.Attribute("ColorSpecification")?.Value ?? "", out (double? Start, double? Step) given);
        double start = Number(element, "StartWL", place) ?? given.Start ?? throw new ExchangeException($"{place}: neither the spectrum nor its colour specification gives StartWL.");
        double step = Number(element, "Increment", place) ?? given.Step ?? throw new ExchangeException($"{place}: neither the spectrum nor its colour specification gives Increment.");
        string[] words = element.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        double[] values = new double[words.Length];
        for (int i = 0; i < words.Length; i++)
        {
            if (!TextFile.TryNumber(words[i], out values[i]))
            {
                throw new ExchangeException($"{place}: '{words[i]}' is not a finite number.");
            }
        }

        return ExchangeException.Placed(place, () => new ReflectanceSpectrum(new WavelengthGrid(start, step, values.Length), values));
    }

    // An attribute of the element itself or of anything in it.
    private static double? Number(XElement element, string attribute, string place)
    {
        string? text = element.DescendantsAndSelf().Select(item => item.Attribute(attribute)?.Value).FirstOrDefault(value => value is not null);
        return text is null ? null
            : TextFile.TryNumber(text, out double value) ? value
            : throw new ExchangeException($"{place}: {attribute} must be a number but is '{text}'.");
    }
}
