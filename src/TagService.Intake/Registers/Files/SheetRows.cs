using System.Globalization;
using System.Xml;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>Rows of one sheet, read one by one (ECMA-376 part 1, 18.3.1.73 and 18.3.1.4).</summary>
internal sealed class SheetRows(XmlReader xml, List<string> shared, SheetFormats formats, SheetLayout layout) : IDisposable
{
    private readonly List<(int Column, RegisterValue Value)> _cells = [];

    /// <summary>Number of the row at hand in the sheet, counted from 1.</summary>
    public int Number { get; private set; }

    /// <summary>Cells of the row at hand that hold something, by column from 1.</summary>
    public IReadOnlyList<(int Column, RegisterValue Value)> Cells => _cells;

    /// <summary>Goes to the next row that holds something.</summary>
    public bool Read()
    {
        while (xml.Read())
        {
            if (xml is not { NodeType: XmlNodeType.Element, LocalName: "row" })
                continue;
            Number = int.TryParse(xml.GetAttribute("r"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : Number + 1;
            ReadCells();
            if (_cells.Count > 0)
                return true;
        }

        return false;
    }

    public void Dispose() => xml.Dispose();

    private void ReadCells()
    {
        _cells.Clear();
        if (xml.IsEmptyElement)
            return;
        var depth = xml.Depth;
        var column = 0;
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml is not { NodeType: XmlNodeType.Element, LocalName: "c" })
                continue;
            column = xml.GetAttribute("r") is { } reference && SheetLayout.Cell(reference).Column is > 0 and var c ? c : column + 1;
            var value = Cell();
            if (value.Kind != RegisterValueKind.Empty)
                _cells.Add((column, value));
        }

        if (_cells.Count == 0 || !layout.HasMerged(Number))
            return;
        // Covered cells need not be written at all; in a row that has values they are no empty cells.
        foreach (var (covered, area) in layout.Covered(Number))
        {
            if (!_cells.Exists(c => c.Column == covered))
                _cells.Add((covered, new(RegisterValueKind.Error, $"part of the merged cell {area}")));
        }

        _cells.Sort((a, b) => a.Column.CompareTo(b.Column));
    }

    private RegisterValue Cell()
    {
        var (type, format) = (xml.GetAttribute("t"), xml.GetAttribute("s"));
        if (xml.IsEmptyElement)
            return RegisterValue.Empty;
        var depth = xml.Depth;
        string? value = null, inline = null;
        var isFormula = false;
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.NodeType != XmlNodeType.Element)
                continue;
            switch (xml.LocalName)
            {
                case "f":
                    isFormula = true;
                    Skip();
                    break;
                case "v":
                    value = Plain();
                    break;
                case "is":
                    inline = SheetTexts.Of(xml);
                    break;
            }
        }

        if (inline is not null)
            return RegisterValue.OfText(inline);
        if (value is null)
            return isFormula ? new(RegisterValueKind.Error, "a formula without a stored result") : RegisterValue.Empty;
        return Typed(value, type, format);
    }

    private RegisterValue Typed(string value, string? type, string? format)
    {
        switch (type)
        {
            case "s":
                return int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < shared.Count
                    ? RegisterValue.OfText(shared[at])
                    : new(RegisterValueKind.Error, "a shared text that is not there");
            case "str":
                return RegisterValue.OfText(value);
            case "b":
                return RegisterValue.OfYesNo(SheetLayout.IsTrue(value));
            case "e":
                return new(RegisterValueKind.Error, value);
            case "d":
                return DateTime.TryParse(value, CultureInfo.InvariantCulture, DateTimeStyles.None, out var moment)
                    ? RegisterValue.OfDate(moment)
                    : new(RegisterValueKind.Error, value);
        }

        if (string.IsNullOrWhiteSpace(value))
            return RegisterValue.Empty;
        if (!double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
            return new(RegisterValueKind.Error, value);
        var style = int.TryParse(format, NumberStyles.None, CultureInfo.InvariantCulture, out var s) ? s : 0;
        if (formats.IsDate(style) && formats.Moment(number) is { } date)
            return RegisterValue.OfDate(date);
        // The shortest text that gives the same number: 25.4, not 25.399999999999999.
        return RegisterValue.OfNumber(number.ToString("R", CultureInfo.InvariantCulture));
    }

    private string Plain()
    {
        if (xml.IsEmptyElement)
            return "";
        var depth = xml.Depth;
        var text = "";
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace)
                text += xml.Value;
        }

        return text;
    }

    // To the end of the element, not beyond it as XmlReader.Skip does.
    private void Skip()
    {
        if (xml.IsEmptyElement)
            return;
        var depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
        {
        }
    }
}
