using System.Globalization;
using System.Text;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Intake.Registers.Preview;

/// <summary>The first rows of a register, to look at.</summary>
/// <param name="Rows">Rows in the source's order.</param>
/// <param name="Unreadable">Rows that could not be read as rows.</param>
/// <param name="Notices">What to know of the source.</param>
/// <param name="IsWhole">The source has no more rows than these.</param>
/// <param name="Failure">Why it could not be read on, behind the rows.</param>
public sealed record RegisterSample(
    IReadOnlyList<RawRow> Rows, IReadOnlyList<UnreadableRow> Unreadable, IReadOnlyList<RegisterNotice> Notices, bool IsWhole, RegisterReadException? Failure)
{
    private const int MostRowCharacters = 1024 * 1024;

    /// <summary>Reads a source until there are enough rows, it ends, fails, or takes too long.</summary>
    /// <param name="reader">The source.</param>
    /// <param name="mostRows">Rows wanted, 1 or more.</param>
    /// <param name="mostTime">Longest time.</param>
    /// <param name="clock">The clock of that.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<RegisterSample> ReadAsync(IRegisterReader reader, int mostRows, TimeSpan mostTime, TimeProvider clock, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mostRows, 1);
        var (rows, unreadable, notices) = (new List<RawRow>(), new List<UnreadableRow>(), new List<RegisterNotice>());
        using var late = new CancellationTokenSource(mostTime, clock);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(late.Token, cancellationToken);
        try
        {
            await foreach (var page in reader.ReadAsync(null, stop.Token))
            {
                rows.AddRange(page.Rows);
                unreadable.AddRange(page.Unreadable);
                notices.AddRange(page.Notices);
                if (page.End is not null || rows.Count + unreadable.Count >= mostRows)
                    return Cut(rows, unreadable, notices, mostRows, page.End is not null, null);
            }
        }
        catch (RegisterReadException e)
        {
            return Cut(rows, unreadable, notices, mostRows, isWhole: false, e);
        }
        catch (OperationCanceledException e) when (late.IsCancellationRequested && !cancellationToken.IsCancellationRequested)
        {
            var message = string.Create(CultureInfo.InvariantCulture, $"The source gave no more rows within {mostTime.TotalSeconds:0} s, the longest time of a preview.");
            return Cut(rows, unreadable, notices, mostRows, isWhole: false, new(RegisterFault.TimedOut, message, e));
        }

        return Cut(rows, unreadable, notices, mostRows, isWhole: true, null);
    }

    /// <summary>Rows that somebody sent, as a register that answers JSON would have them.</summary>
    /// <param name="objects">UTF-8 texts of JSON values.</param>
    /// <param name="mostRows">Rows wanted.</param>
    public static RegisterSample OfJson(IEnumerable<byte[]> objects, int mostRows)
    {
        var flattener = new JsonRowFlattener();
        var repeats = new RepeatWatch();
        var (rows, unreadable, n) = (new List<RawRow>(), new List<UnreadableRow>(), 0);
        foreach (var json in objects)
        {
            var place = string.Create(CultureInfo.InvariantCulture, $"row {++n}");
            if (flattener.Flatten(json, out var reason) is { } row)
                rows.Add(new(place, Registers.OriginalText.Of(json), row, repeats.Note(null, json)));
            else
                unreadable.Add(new(place, Registers.OriginalText.Of(json), reason!));
        }

        return Cut(rows, unreadable, [], mostRows, isWhole: true, null);
    }

    /// <summary>Rows that somebody sent as separated values with a header row; the separator is found out.</summary>
    /// <param name="text">The text.</param>
    /// <param name="mostRows">Rows wanted.</param>
    public static RegisterSample OfCsv(string text, int mostRows)
    {
        var (rows, unreadable, notices) = (new List<RawRow>(), new List<UnreadableRow>(), new List<RegisterNotice>());
        var repeats = new RepeatWatch();
        try
        {
            using var table = new CsvTable(
                new MemoryStream(Encoding.UTF8.GetBytes(text)), new() { Folder = "sent", Pattern = "*", Encoding = "utf-8", MostRowCharacters = MostRowCharacters });
            while (rows.Count + unreadable.Count <= mostRows && table.Read() is { } row)
            {
                var place = string.Create(CultureInfo.InvariantCulture, $"line {row.Line}");
                if (row.Values is { } values)
                    rows.Add(new(place, row.Text, new(table.Columns, values), repeats.Note(null, Encoding.UTF8.GetBytes(row.Text))));
                else
                    unreadable.Add(new(place, row.Text, row.Reason!));
            }

            notices.AddRange(table.TakeNotices());
        }
        catch (RegisterReadException e)
        {
            return Cut(rows, unreadable, notices, mostRows, isWhole: false, e);
        }

        return Cut(rows, unreadable, notices, mostRows, isWhole: true, null);
    }

    private static RegisterSample Cut(
        List<RawRow> rows, List<UnreadableRow> unreadable, List<RegisterNotice> notices, int most, bool isWhole, RegisterReadException? failure)
    {
        RawRow[] kept = [.. rows.Take(most)];
        UnreadableRow[] unread = [.. unreadable.Take(most - kept.Length)];
        return new(kept, unread, [.. notices.Distinct()], isWhole && kept.Length + unread.Length == rows.Count + unreadable.Count, failure);
    }
}
