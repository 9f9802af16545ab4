using System.Text;

namespace CeramicOptics.Exchange;

/// <summary>A line of text cut into fields.</summary>
/// <remarks>
/// RFC 4180 within one line: a field that begins with a quote ends with the next single one, and doubled quotes stand
/// for one. Written for this library, because it must also cut at runs of blanks, say in which line a quote stays
/// open, and try several separators on the same text.
/// </remarks>
internal static class Fields
{
    /// <summary>The fields, trimmed; null when a quote is not closed.</summary>
    public static List<string>? Split(string line, FieldSeparator separator)
    {
        List<string> fields = [];
        bool isSpace = separator == FieldSeparator.Space;
        char mark = separator switch
        {
            FieldSeparator.Tab => '\t', FieldSeparator.Semicolon => ';', FieldSeparator.Comma => ',',
            FieldSeparator.Bar => '|', _ => ' ',
        };
        bool IsEnd(int at) => isSpace ? char.IsWhiteSpace(line[at]) : line[at] == mark;
        for (int i = 0; i <= line.Length; i++)
        {
            while (i < line.Length && char.IsWhiteSpace(line[i]) && (isSpace || !IsEnd(i)))
            {
                i++;
            }

            if (isSpace && i == line.Length)
            {
                break;
            }

            int start = i;
            string quoted = "";
            if (i < line.Length && line[i] == '"')
            {
                if (Quoted(line, ref i) is not { } text)
                {
                    return null;
                }

                (quoted, start) = (text, i);
            }

            while (i < line.Length && !IsEnd(i))
            {
                i++;
            }

            fields.Add(i == start ? quoted.Trim() : $"{quoted}{line.Substring(start, i - start)}".Trim());
        }

        return fields;
    }

    /// <summary>The text between quotes, with the position moved behind it; null when it is not closed.</summary>
    public static string? Quoted(string line, ref int i)
    {
        StringBuilder text = new();
        for (i++; i < line.Length; i++)
        {
            if (line[i] != '"')
            {
                text.Append(line[i]);
            }
            else if (i + 1 < line.Length && line[i + 1] == '"')
            {
                text.Append(line[i++]);
            }
            else
            {
                i++;
                return text.ToString();
            }
        }

        return null;
    }
}
