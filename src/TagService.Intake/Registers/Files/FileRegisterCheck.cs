using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>Says what is wrong with the settings of a source of files.</summary>
public static class FileRegisterCheck
{
    /// <summary>All that is wrong; empty when the source can be read.</summary>
    /// <param name="o">The settings.</param>
    /// <param name="folders">Names of the configured folders.</param>
    public static IReadOnlyList<MappingIssue> Issues(FileRegisterOptions o, IEnumerable<string> folders) =>
        [.. Checks(o, [.. folders]).Where(c => c.Wrong).Select(c => new MappingIssue(c.Pointer, c.Value, c.Detail, c.Accepted))];

    private static IEnumerable<(bool Wrong, string Pointer, string? Value, string Detail, string Accepted)> Checks(FileRegisterOptions o, string[] folders)
    {
        yield return (!folders.Contains(o.Folder), "/folder", o.Folder, "There is no folder of this name in the configuration.", folders.Length == 0 ? "none is configured" : string.Join(", ", folders));
        yield return (o.Pattern.Length is 0 or > 200 || o.Pattern.AsSpan().ContainsAny("/\\:\0") || o.Pattern is "." or "..", "/pattern", o.Pattern, "This is no pattern of file names.", "for example *.csv, without a folder");
        yield return (o.RowsBeforeHeader is < 0 or > 1000, "/rowsBeforeHeader", null, "The number is out of range.", "0 to 1,000");
        yield return (o.MostColumns is < 1 or > 16_384, "/mostColumns", null, "The number is out of range.", "1 to 16,384");
        yield return (o.ColumnNames is { } names && (names.Count == 0 || names.Count > o.MostColumns || names.Any(string.IsNullOrWhiteSpace)), "/columnNames", null, "The names of the columns cannot be used.", "one name a column, none empty");
        if (o is CsvRegisterOptions csv)
        {
            yield return (csv.Encoding is { } e && !TextEncodings.Names.Contains(e), "/encoding", csv.Encoding, "This encoding is not read.", string.Join(", ", TextEncodings.Names));
            yield return (csv.Separator is { } s && !SeparatorDetection.Candidates.Contains(s), "/separator", csv.Separator?.ToString(), "This separator is not read.", "comma, semicolon, tab or bar");
            yield return (csv.MostRowCharacters is < 100 or > 16_777_216, "/mostRowCharacters", null, "The limit is out of range.", "100 to 16,777,216");
        }

        if (o is SpreadsheetRegisterOptions sheet)
        {
            yield return (sheet.MostUnpackedBytes is < 1024 * 1024 or > 16L * 1024 * 1024 * 1024, "/mostUnpackedBytes", null, "The limit is out of range.", "1 MiB to 16 GiB");
            yield return (sheet.MostSharedCharacters is < 1024 or > 1024 * 1024 * 1024, "/mostSharedCharacters", null, "The limit is out of range.", "1,024 to 1,073,741,824");
        }
    }
}
