using System.Globalization;
using System.Xml;

namespace TagService.Intake.Registers.Files;

/// <summary>What a sheet says of itself beside its values: merged cells, hidden rows and columns. Found by a pass of its own, because merged cells stand behind the values.</summary>
internal sealed class SheetLayout
{
    private const int MostMergedRows = 200_000;

    private readonly Dictionary<int, List<(int First, int Last, bool IsFirstRow, string Area)>> _merged = [];
    private readonly List<string> _areas = [];
    private int _hiddenRows;
    private int _hiddenColumns;

    public SheetLayout(XmlReader xml)
    {
        while (xml.Read())
        {
            if (xml.NodeType != XmlNodeType.Element)
                continue;
            switch (xml.LocalName)
            {
                case "row" when IsTrue(xml.GetAttribute("hidden")):
                    _hiddenRows++;
                    break;
                case "col" when IsTrue(xml.GetAttribute("hidden")):
                    _hiddenColumns++;
                    break;
                case "mergeCell" when xml.GetAttribute("ref") is { } area:
                    Merge(area);
                    break;
            }
        }
    }

    /// <summary>Columns of a row that are covered by a merged area without being its first cell, with the area.</summary>
    public IEnumerable<(int Column, string Area)> Covered(int row)
    {
        foreach (var (first, last, isFirstRow, area) in _merged.GetValueOrDefault(row) ?? [])
        {
            for (var column = isFirstRow ? first + 1 : first; column <= last; column++)
                yield return (column, area);
        }
    }

    public bool HasMerged(int row) => _merged.ContainsKey(row);

    public IEnumerable<RegisterNotice> Notices()
    {
        if (_areas.Count > 0)
            yield return new("merged-cells", string.Create(CultureInfo.InvariantCulture, $"{_areas.Count} areas of cells are merged ({string.Join(", ", _areas.Take(5))}{(_areas.Count > 5 ? ", …" : "")}); only the first cell of each has a value, the others are not taken as empty."));
        if (_hiddenRows > 0)
            yield return new("hidden-rows", string.Create(CultureInfo.InvariantCulture, $"{_hiddenRows} rows are hidden, by hand or by a filter; they are read like the others."));
        if (_hiddenColumns > 0)
            yield return new("hidden-columns", string.Create(CultureInfo.InvariantCulture, $"{_hiddenColumns} ranges of columns are hidden; they are read like the others."));
    }

    /// <summary>Column and row, counted from 1, of a cell reference such as B12; zeros when it is none.</summary>
    public static (int Column, int Row) Cell(ReadOnlySpan<char> reference)
    {
        var i = 0;
        var column = 0;
        for (; i < reference.Length && char.IsAsciiLetterUpper(reference[i]) && i < 3; i++)
            column = (column * 26) + reference[i] - 'A' + 1;
        return i > 0 && int.TryParse(reference[i..], NumberStyles.None, CultureInfo.InvariantCulture, out var row) ? (column, row) : (0, 0);
    }

    public static bool IsTrue(string? flag) => flag is "1" or "true";

    private void Merge(string area)
    {
        var colon = area.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
            return;
        var (first, last) = (Cell(area.AsSpan(0, colon)), Cell(area.AsSpan(colon + 1)));
        if (first.Row == 0 || last.Row < first.Row)
            return;
        _areas.Add(area);
        if (_merged.Count + (long)last.Row - first.Row > MostMergedRows)
            throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"Merged cells cover more than {MostMergedRows} rows."));
        for (var row = first.Row; row <= last.Row; row++)
        {
            if (!_merged.TryGetValue(row, out var areas))
                _merged.Add(row, areas = []);
            areas.Add((first.Column, last.Column, row == first.Row, area));
        }
    }
}
