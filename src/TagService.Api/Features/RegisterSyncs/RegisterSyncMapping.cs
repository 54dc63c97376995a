using System.Text.Json;
using TagService.Api.Features.RegisterSources;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>From the tables to the wire.</summary>
internal static class RegisterSyncMapping
{
    private static readonly DateTimeOffset Then = new(2026, 5, 1, 9, 0, 0, TimeSpan.Zero);

    /// <summary>A run of the invented register.</summary>
    public static RegisterSyncResponse Example { get; } = new RegisterSyncRow
    {
        SourceName = RegisterSourceExamples.Name, State = RegisterSyncState.Running, RequestedBy = "unnamed-caller", RequestedAt = Then, IsFullPass = true, AcceptsMissing = false,
        StartedAt = Then.AddSeconds(4), Rows = 1200, Announced = 2412, Created = 12, Changed = 30, Unchanged = 1155, Refused = 3,
    }.ToResponse(Then.AddSeconds(34));

    /// <summary>A refused row of it.</summary>
    public static RejectedRowResponse RejectedExample { get; } = new(
        1, "page 3, item 17", "P-2", "This is no number.",
        [new("refuses", "/surface/thicknessMm", "/wall", "thick", "This is no number.", "a number in mm", 1)], """{"no":"P-2","wall":"thick"}""");

    public static ApiProblem NotFound() => ApiProblem.NotFound("No run has this number; /v1/register-syncs lists those that are kept.");

    public static RegisterSyncResponse ToResponse(this RegisterSyncRow row, DateTimeOffset now, params IEnumerable<SourceNoticeResponse> more)
    {
        var notes = row.Notes is { } json ? JsonSerializer.Deserialize<RegisterSyncNotes>(json, AssetRecordJson.Options)! : RegisterSyncNotes.None;
        return new()
        {
            Id = row.Id, Source = row.SourceName, State = row.State, RequestedBy = row.RequestedBy, RequestedAt = row.RequestedAt, FullPass = row.IsFullPass,
            AcceptMissing = row.AcceptsMissing, StartedAt = row.StartedAt, EndedAt = row.EndedAt, TryAgainAt = row.TryAgainAt,
            Seconds = row.StartedAt is { } start ? Math.Round(Math.Max(0, ((row.EndedAt ?? now) - start).TotalSeconds), 3) : null, Progress = Progress(row), Attempts = row.Attempts,
            Rows = row.Rows, Announced = row.Announced, Created = row.Created, Changed = row.Changed, Unchanged = row.Unchanged, Refused = row.Refused, Repeated = row.Repeated,
            BroughtBack = row.BroughtBack, Missing = row.Missing, Retired = row.Retired, ReasonCode = row.ReasonCode, ReasonDetail = row.ReasonDetail,
            Notices = [.. more, .. notes.Notices.Select(n => new SourceNoticeResponse(n.Code, n.Detail))], CompleteList = notes.IsCompleteList, Doubts = notes.Doubts,
            Values = [.. notes.Values.Select(ToResponse)], ValuesNotListed = notes.ValuesNotListed,
        };
    }

    public static RejectedRowResponse ToResponse(this RejectedRowRow row) => new(
        row.Number, row.Place, row.AssetId, row.Reason, [.. JsonSerializer.Deserialize<ValueNote[]>(row.Problems, AssetRecordJson.Options)!.Select(ToResponse)], row.OriginalText);

    public static string ToCsv(IEnumerable<RejectedRowResponse> rows)
    {
        var csv = new CsvText();
        csv.Line("number", "place", "assetId", "reason", "problems", "originalText");
        foreach (var row in rows)
        {
            csv.Line(
                row.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), row.Place, row.AssetId, row.Reason,
                string.Join("; ", row.Problems.Select(p => $"{p.Field}: {p.Value}: {p.Detail} Accepted: {p.Accepted}")), row.OriginalText);
        }

        return csv.ToString();
    }

    private static ValueNoteResponse ToResponse(ValueNote v) => new(v.Kind, v.Field, v.Source, v.Value, v.Detail, v.Accepted, v.Count);

    private static double? Progress(RegisterSyncRow row) =>
        row.Announced is > 0 and var all ? Math.Round(Math.Min(1, row.Rows / (double)all), 4) : null;
}
