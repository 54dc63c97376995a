using System.Globalization;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>Names of columns from a header row.</summary>
internal static class TableColumns
{
    /// <summary>Names made unique: an empty one becomes "column 3", one that comes again "name (2)".</summary>
    public static RegisterColumns Of(IReadOnlyList<string> header, FileRegisterOptions source, List<RegisterNotice> notices)
    {
        if (header.Count > source.MostColumns)
            throw new RegisterReadException(RegisterFault.Malformed, string.Create(CultureInfo.InvariantCulture, $"The header has {header.Count} columns; at most {source.MostColumns} are read."));
        var names = new List<string>(header.Count);
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < header.Count; i++)
        {
            var written = header[i].Trim();
            var name = written.Length > 0 ? written : string.Create(CultureInfo.InvariantCulture, $"column {i + 1}");
            for (var n = 2; !seen.Add(name); n++)
                name = string.Create(CultureInfo.InvariantCulture, $"{written} ({n})");
            if (written.Length > 0 && name != written)
                notices.Add(new("column-twice", $"The column {written} is there twice; this one is called {name}."));
            names.Add(name);
        }

        return new(names, areJsonPointers: false);
    }
}
