using System.Globalization;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace TagService.Intake.Registers.Files;

/// <summary>Which cell formats show a number as a date (ECMA-376 part 1, 18.8.30), and how its serial number counts (18.17.4).</summary>
internal sealed class SheetFormats
{
    // Days from 1899-12-30 to 1904-01-01.
    private const int Days1904 = 1462;
    private const double FirstSafeSerial = 61;
    private const double LastSerial = 2_958_466;

    private readonly bool[] _isDate;
    private readonly bool _from1904;

    public SheetFormats(WorkbookPart workbook)
    {
        _from1904 = workbook.Workbook?.WorkbookProperties?.Date1904?.Value == true;
        var styles = workbook.WorkbookStylesPart?.Stylesheet;
        var codes = (styles?.NumberingFormats?.Elements<NumberingFormat>() ?? [])
            .Where(f => f.NumberFormatId?.HasValue == true)
            .DistinctBy(f => f.NumberFormatId!.Value)
            .ToDictionary(f => f.NumberFormatId!.Value, f => f.FormatCode?.Value ?? "");
        _isDate = [.. (styles?.CellFormats?.Elements<CellFormat>() ?? []).Select(f =>
            f.NumberFormatId?.Value is { } id && (codes.TryGetValue(id, out var code) ? IsDateCode(code) : IsBuiltInDate(id)))];
    }

    /// <summary>Does this cell format show a date?</summary>
    public bool IsDate(int format) => format >= 0 && format < _isDate.Length && _isDate[format];

    /// <summary>The moment of a serial number, to the second; null where the two date systems and their false leap year make it doubtful.</summary>
    public DateTime? Moment(double serial)
    {
        var since1900 = _from1904 ? serial + Days1904 : serial;
        if (!(since1900 >= FirstSafeSerial && since1900 < LastSerial))
            return null;
        // Serial numbers are binary fractions of a day: round to the second they stand for.
        return new DateTime(1899, 12, 30).AddSeconds(Math.Round(since1900 * 86_400));
    }

    // 18.8.30: 14 to 22 dates and times, 45 to 47 durations; 27 to 36 and 50 to 58 dates of East Asian locales.
    private static bool IsBuiltInDate(uint id) => id is (>= 14 and <= 22) or (>= 27 and <= 36) or (>= 45 and <= 47) or (>= 50 and <= 58);

    /// <summary>Letters of dates outside quotes, brackets and escapes, in the first section of a format code.</summary>
    internal static bool IsDateCode(string code)
    {
        for (var i = 0; i < code.Length; i++)
        {
            switch (char.ToLower(code[i], CultureInfo.InvariantCulture))
            {
                case ';':
                    return false;
                case '\\' or '_' or '*':
                    i++;
                    break;
                case '"':
                    i = EndOf(code, i, '"');
                    break;
                case '[':
                    // [h], [mm], [s] are elapsed times; all other brackets hold colours, locales, conditions.
                    var end = EndOf(code, i, ']');
                    if (code[(i + 1)..end].ToLowerInvariant() is { Length: > 0 } inner && inner.All(c => c is 'h' or 'm' or 's'))
                        return true;
                    i = end;
                    break;
                case 'y' or 'm' or 'd' or 'h' or 's':
                    return true;
            }
        }

        return false;
    }

    private static int EndOf(string code, int from, char mark) =>
        code.IndexOf(mark, from + 1) is >= 0 and var at ? at : code.Length - 1;
}
