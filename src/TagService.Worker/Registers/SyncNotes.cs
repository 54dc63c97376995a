using System.Text.Json;
using TagService.Domain.Registers;
using TagService.Storage.Tables;

namespace TagService.Worker.Registers;

/// <summary>What a run notes, page by page. Bounded: a broken source must not fill the book.</summary>
internal static class SyncNotes
{
    private const int MostNotices = 50;
    private const int MostValues = 200;

    /// <summary>A value that was not taken as it is, as it is kept.</summary>
    public static ValueNote Of(RowProblem problem, long count = 1) => new(
        JsonNamingPolicy.KebabCaseLower.ConvertName(problem.Kind.ToString()), problem.Field, problem.Source, problem.Value, problem.Detail, problem.Accepted, count);

    /// <summary>The notes with those of one page more.</summary>
    /// <param name="notes">Notes so far.</param>
    /// <param name="group">The page.</param>
    /// <param name="tally">Its values that were not understood.</param>
    /// <param name="missingSources">Columns that feed a field but that no row of the run has.</param>
    /// <param name="withoutKey">Rows that were refused without their asset being known.</param>
    public static RegisterSyncNotes Plus(
        this RegisterSyncNotes notes, PageGroup group, NotUnderstoodTally tally, IEnumerable<string> missingSources, long withoutKey)
    {
        var values = notes.Values.Concat(tally.Listed.Select(l => Of(l.Problem, l.Count)))
            .GroupBy(v => (v.Kind, v.Field, v.Value))
            .Select(g => g.First() with { Count = g.Sum(v => v.Count) })
            .OrderByDescending(v => v.Count)
            .ToArray();
        var doubts = notes.Doubts.Concat(group.End?.Doubts ?? []);
        if (withoutKey > 0)
            doubts = doubts.Append("Rows were refused of which the asset is not known.");
        return notes with
        {
            Notices =
            [
                .. notes.Notices
                    .Concat(group.Notices.Select(n => new SourceNote(n.Code, n.Detail)))
                    .Concat(missingSources.Select(s => new SourceNote("column-missing", $"The mapping reads {s}, which no row has; what it fed stays as it was.")))
                    .Distinct().Take(MostNotices),
            ],
            Doubts = [.. doubts.Distinct().Take(MostNotices)],
            Values = [.. values.Take(MostValues)],
            ValuesNotListed = notes.ValuesNotListed + tally.NotListed + values.Skip(MostValues).Sum(v => v.Count),
        };
    }
}
