using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;

namespace TagService.Intake.Registers.Files;

/// <summary>Texts of a spreadsheet: the shared ones and those within cells (ECMA-376 part 1, 18.4).</summary>
internal static partial class SheetTexts
{
    /// <summary>How parts are read: no document types, nothing from outside, bounded.</summary>
    public static XmlReaderSettings Settings(long mostCharacters) => new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        MaxCharactersInDocument = mostCharacters,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
    };

    /// <summary>The shared texts by number.</summary>
    /// <exception cref="RegisterReadException">They are larger than allowed.</exception>
    public static List<string> Shared(Stream? part, int mostCharacters)
    {
        var texts = new List<string>();
        if (part is null)
            return texts;
        long characters = 0;
        using var xml = XmlReader.Create(part, Settings(16L * mostCharacters));
        while (xml.Read())
        {
            if (xml is not { NodeType: XmlNodeType.Element, LocalName: "si" })
                continue;
            var text = Of(xml);
            characters += text.Length + 16;
            if (characters > mostCharacters)
                throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"The shared texts of the spreadsheet have more than {mostCharacters} characters."));
            texts.Add(text);
        }

        return texts;
    }

    /// <summary>The text within the element the reader stands on; leaves it on the element's end. Phonetic hints (rPh) are left out.</summary>
    public static string Of(XmlReader xml)
    {
        if (xml.IsEmptyElement)
            return "";
        var depth = xml.Depth;
        var text = new StringBuilder();
        int phonetic = -1, within = -1;
        while (xml.Read() && xml.Depth > depth)
        {
            switch (xml.NodeType)
            {
                case XmlNodeType.Element when xml.LocalName == "rPh" && !xml.IsEmptyElement:
                    phonetic = xml.Depth;
                    break;
                case XmlNodeType.Element when xml.LocalName == "t" && !xml.IsEmptyElement:
                    within = xml.Depth;
                    break;
                case XmlNodeType.EndElement when xml.Depth == phonetic:
                    phonetic = -1;
                    break;
                case XmlNodeType.EndElement when xml.Depth == within:
                    within = -1;
                    break;
                case XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace or XmlNodeType.CDATA when within >= 0 && phonetic < 0:
                    text.Append(xml.Value);
                    break;
            }
        }

        return Unescape(text.ToString());
    }

    /// <summary>Characters written as _xHHHH_ (18.9, ST_Xstring).</summary>
    private static string Unescape(string text) => !text.Contains("_x", StringComparison.Ordinal)
        ? text
        : Escaped().Replace(text, m => ((char)int.Parse(m.Groups[1].ValueSpan, NumberStyles.HexNumber, CultureInfo.InvariantCulture)).ToString());

    [GeneratedRegex("_x([0-9A-Fa-f]{4})_", RegexOptions.CultureInvariant)]
    private static partial Regex Escaped();
}
