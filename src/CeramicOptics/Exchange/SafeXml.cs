using System.Xml;
using System.Xml.Linq;

namespace CeramicOptics.Exchange;

/// <summary>XML from strangers: no document type, no external entities, no great length or depth.</summary>
internal static class SafeXml
{
    private const int MaximumDepth = 32;

    public static XDocument Load(TextReader reader, string source) =>
        Load(string.Join("\n", TextFile.Lines(reader, source)), source);

    public static XDocument Load(string text, string source)
    {
        XmlReaderSettings settings = new() { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null };
        try
        {
            // A first pass, so that nothing deep is built before it is refused.
            using (XmlReader depth = XmlReader.Create(new StringReader(text), settings))
            {
                while (depth.Read())
                {
                    if (depth.Depth > MaximumDepth)
                    {
                        throw ExchangeException.AtLine(
                            source, ((IXmlLineInfo)depth).LineNumber,
                            $"elements are nested more than {Guard.Text(MaximumDepth)} deep.");
                    }
                }
            }

            using XmlReader xml = XmlReader.Create(new StringReader(text), settings);
            return XDocument.Load(xml, LoadOptions.SetLineInfo);
        }
        catch (XmlException error)
        {
            throw new ExchangeException($"{source}, line {Guard.Text(error.LineNumber)}: {error.Message}", error);
        }
    }
}
