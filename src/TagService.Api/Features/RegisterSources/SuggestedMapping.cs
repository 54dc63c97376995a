using TagService.Domain.Registers;
using TagService.Intake.Registers.Preview;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Suggestions for the columns of a sample, and the mapping that the good ones make.</summary>
internal static class SuggestedMapping
{
    /// <summary>Least confidence for the mapping; a planning value, no probability.</summary>
    public const double LeastConfidence = 0.5;

    public static SuggestMappingResponse Of(RegisterSample sample, IEnumerable<string> places, DateOnly today)
    {
        var suggestions = MappingSuggestion.From([.. sample.Rows.Select(r => r.Row)], places, today);
        var (rows, left) = Good(suggestions);
        var notices = new List<SourceNoticeResponse>(PreviewMaker.Notices(sample));
        if (sample.Failure is { } failure)
            notices.Add(new("not-read-on", failure.Message));
        if (sample.Unreadable is [var first, ..])
            notices.Add(new("unreadable-rows", FormattableString.Invariant($"{sample.Unreadable.Count} rows could not be read, first {first.Place}: {first.Reason}")));
        if (rows.All(r => r.Target != MappingTargets.AssetId.Pointer))
            notices.Add(new("no-key", "No column is certain to be the key: the mapping needs a row with the target /assetId before it can be used."));
        notices.AddRange(left.Select(r => new SourceNoticeResponse("left-out", $"{r.Source} is left out of the mapping: {r.Target} cannot be mapped without a field that no column was found for.")));
        return new(
            sample.Rows.Count,
            [.. suggestions.Select(s => new ColumnSuggestionResponse(
                s.Source, s.Row is { } row ? RegisterSourceMapping.OfRow(row) : null, s.Confidence, s.Reasons, s.BetterSource, s.NotUnderstood))],
            rows.Count == 0 ? null : new() { Rows = [.. rows.Select(RegisterSourceMapping.OfRow)] },
            notices);
    }

    // The surest first; one that only goes together with another gets a second chance behind it.
    private static (IReadOnlyList<MappingRow> Rows, IReadOnlyList<MappingRow> Left) Good(IReadOnlyList<MappingSuggestion> suggestions)
    {
        List<MappingRow> waiting =
        [
            .. suggestions.Where(s => s is { Row: not null, BetterSource: null, Confidence: >= LeastConfidence }).OrderByDescending(s => s.Confidence).Select(s => s.Row!),
        ];
        var rows = new List<MappingRow>();
        for (var taken = -1; taken != rows.Count;)
        {
            taken = rows.Count;
            foreach (var row in waiting.ToArray())
            {
                if (rows.Count == RegisterMapping.MostRows || IssuesOf([.. rows, row]) > 0)
                    continue;
                rows.Add(row);
                waiting.Remove(row);
            }
        }

        return (rows, waiting);
    }

    // The key may still be missing.
    private static int IssuesOf(IReadOnlyList<MappingRow> rows) => new RegisterMapping { Rows = rows }.Compile() is MappingCompilation.Unusable unusable
        ? unusable.Issues.Count - (rows.Any(r => r.Target == MappingTargets.AssetId.Pointer) ? 0 : 1)
        : 0;
}
