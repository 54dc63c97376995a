using System.Globalization;
using System.Text;
using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Preview;
using TagService.Storage;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Reads some rows and shows what a run would do with them.</summary>
internal sealed class PreviewMaker(RegisterReaders readers, TagServiceDbContext database, TimeProvider clock)
{
    /// <summary>Most rows of a preview.</summary>
    public const int MostRows = 10_000;

    /// <summary>Rows unless asked otherwise.</summary>
    public const int DefaultRows = 200;

    /// <summary>Largest body: sample rows are sent in it.</summary>
    public const int MostBytes = 16 * 1024 * 1024;

    /// <summary>Longest time a source is read for a preview.</summary>
    public static readonly TimeSpan MostTime = TimeSpan.FromSeconds(30);

    /// <summary>How bodies with sample rows are read.</summary>
    public static JsonReadOptions ReadOptions { get; } = new() { MaxBytes = MostBytes };

    /// <summary>The rows that were sent, or null when none were.</summary>
    public static (RegisterSample? Sample, ApiProblem? Problem) Sent(IReadOnlyList<JsonElement>? rows, string? csvText, int most)
    {
        if (rows is not null && csvText is not null)
        {
            return (null, ApiProblem.Contradictory(
                "There are two samples.", new ProblemError("#/rows", null, "Sent together with csvText.", "one of the two"),
                new ProblemError("#/csvText", null, "Sent together with rows.", "one of the two")));
        }

        if (rows is not null)
            return (RegisterSample.OfJson(rows.Select(r => Encoding.UTF8.GetBytes(r.GetRawText())), most), null);
        if (csvText is null)
            return (null, null);
        var sample = RegisterSample.OfCsv(csvText, most);
        return sample is { Rows: [], Failure: { } failure }
            ? (null, new(ProblemTypes.InvalidFields, "csvText cannot be read.", [new("#/csvText", JsonText.Clip(csvText), failure.Message, "a header row and rows, as RFC 4180 has it")]))
            : (sample, null);
    }

    /// <summary>The first rows of a source, or why there are none.</summary>
    public async Task<(RegisterSample? Sample, ApiProblem? Problem)> ReadAsync(RegisterSource source, int most, CancellationToken cancellationToken)
    {
        var sample = await RegisterSample.ReadAsync(readers.Open(source), most, MostTime, clock, cancellationToken);
        return sample is { Rows: [], Unreadable: [], Failure: { } failure }
            ? (null, new(ProblemTypes.RegisterUnreadable, failure.Message)
            {
                Code = JsonNamingPolicy.KebabCaseLower.ConvertName(failure.Fault.ToString()),
                RetryAfterSeconds = failure.RetryAt is { } at ? (int)Math.Clamp(Math.Ceiling((at - clock.GetUtcNow()).TotalSeconds), 1, 86_400) : null,
            })
            : (sample, null);
    }

    /// <summary>What a run would do with the rows.</summary>
    public async Task<PreviewResponse> PreviewAsync(RegisterSample sample, RowMapper mapper, string? sourceName, CancellationToken cancellationToken) =>
        ToResponse(sample, await new RegisterDryRun(database, clock).RunAsync(sample, mapper, sourceName, cancellationToken));

    /// <summary>As it is answered.</summary>
    public static PreviewResponse ToResponse(RegisterSample sample, RegisterPreview preview)
    {
        int Count(PreviewOutcome outcome) => preview.Rows.Count(r => r.Outcome == outcome);
        return new(
            preview.Rows.Count, sample.IsWhole, Count(PreviewOutcome.Created), Count(PreviewOutcome.Changed), Count(PreviewOutcome.Unchanged), Count(PreviewOutcome.Refused),
            Count(PreviewOutcome.Repeated), sample.Failure is { } f ? new(f.Fault, f.Message) : null, preview.MissingSources, Notices(sample),
            [.. preview.Tally.Listed.Select(v => new ValueNoteResponse(
                JsonNamingPolicy.KebabCaseLower.ConvertName(v.Problem.Kind.ToString()), v.Problem.Field, v.Problem.Source, v.Problem.Value, v.Problem.Detail, v.Problem.Accepted, v.Count))],
            preview.Tally.NotListed,
            [.. preview.Rows.Select(r => new PreviewRowResponse(
                r.Place, r.AssetId, r.Outcome, r.Reason, [.. r.Changes.Select(c => new RowChangeResponse(c.Field, c.Before, c.After))],
                [.. r.Problems.Select(p => new RowProblemResponse(p.Kind, p.Field, p.Source, p.Value, p.Detail, p.Accepted))], r.OriginalText))]);
    }

    /// <summary>What is known of the source.</summary>
    public static SourceNoticeResponse[] Notices(RegisterSample sample) => [.. sample.Notices.Select(n => new SourceNoticeResponse(n.Code, n.Detail))];

    /// <summary>For descriptions.</summary>
    public static string Limits { get; } = string.Create(
        CultureInfo.InvariantCulture,
        $"Reading stops after maxRows rows ({DefaultRows} unless asked otherwise, at most {MostRows}) and after {MostTime.TotalSeconds:0} s; what was read until then is shown with the failure. "
        + $"A source that gives no row at all is answered 422 with the type register-unreadable and the fault as code. The body may have {MostBytes / 1024 / 1024} MiB.");
}
