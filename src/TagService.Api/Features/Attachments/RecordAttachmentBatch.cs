using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Intake.Csv;
using TagService.Storage.Attachments;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>POST /v1/attachments/batch.</summary>
internal static class RecordAttachmentBatch
{
    private const string Ndjson = "application/x-ndjson";
    private const string Csv = "text/csv";
    private static readonly JsonReadOptions LineOptions = new() { MaxBytes = 64 * 1024 };

    public static void Map(IEndpointRouteBuilder attachments) => attachments.MapPost("/batch", Handle)
        .WithName("recordAttachmentBatch")
        .WithSummary("Take over existing pairs and fitters' offline results")
        .WithDescription(
            "One line for each tag on an asset, as NDJSON or as CSV (RFC 4180, UTF-8, the members' names as header); any number of lines, each of "
            + "up to 64 KiB. The answer is NDJSON in the order of the lines, as a stream, with a summary as its last line; read it while sending. "
            + "A line that cannot be taken yields a problem line with its number, and the rest goes on. A line about a pair that is recorded "
            + "already ends it if it states an end, and else changes nothing. A line that was taken before is known, whatever was "
            + "corrected since, so that a batch that broke off is simply sent again. Where only the day is known, write startNotBefore and startNotAfter. Corrections of what is recorded go through PATCH.")
        .Accepts<AttachmentLineRequest>(Ndjson, Csv)
        .Produces<AttachmentLineResponse>(contentType: Ndjson)
        .WithLineExamples(static () => AttachmentExamples.Lines, AttachmentExamples.Csv, static () => AttachmentExamples.Answers)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.InvalidFields, ProblemTypes.UnsupportedMediaType, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="writer">Where lines are recorded.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="loggers">Makes the log.</param>
    /// <param name="createAssets">Makes thin records of assets that the mirror does not have; without it their lines are refused.</param>
    /// <param name="answers">Which lines are answered.</param>
    private static async Task Handle(
        HttpContext context,
        [FromServices] AttachmentBatchWriter writer,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] TimeProvider clock,
        [FromServices] ILoggerFactory loggers,
        bool? createAssets,
        [Description("all, or refused: only lines that were not taken, and the summary. For senders that do not read while they send.")] string? answers)
    {
        if (Refusal(context.Request, answers, out var isCsv) is { } problem)
        {
            await problem.ExecuteAsync(context);
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = null;
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
        await using var rows = isCsv ? CsvText.ReadAsync(context.Request.Body, LineOptions.MaxBytes, stop.Token).GetAsyncEnumerator(stop.Token) : null;
        var (lines, header) = rows is null ? (null, null) : await CsvLines.OpenAsync(rows, LineOptions);
        if (header is not null)
        {
            await header.ExecuteAsync(context);
            return;
        }

        var input = lines is null
            ? NdjsonLines.ReadAsync(context.Request, LineOptions, AttachmentBatchWriter.MaxLines, stop.Token)
            : lines.ReadAsync(rows!, AttachmentBatchWriter.MaxLines, stop.Token);
        context.Response.ContentType = Ndjson;
        var started = clock.GetTimestamp();
        var output = new BatchAnswers(context, onlyRefused: answers == "refused");
        await new BatchPipeline(writer, new(contexts.Snapshot, clock.GetUtcNow), createAssets ?? false, output).RunAsync(input, stop);
        var summary = await output.EndAsync(context.RequestAborted);
        loggers.CreateLogger(typeof(RecordAttachmentBatch).FullName!).LogInformation(
            "Batch of attachments: {Lines} lines, {Started} started, {Ended} ended, {Known} known, {Refused} refused, {PerSecond:0} a second",
            summary.Lines, summary.Started, summary.Ended, summary.Known, summary.Refused, summary.Lines / clock.GetElapsedTime(started).TotalSeconds);
    }

    private static ApiProblem? Refusal(HttpRequest request, string? answers, out bool isCsv)
    {
        isCsv = false;
        if (answers is not (null or "" or "all" or "refused"))
            return new(ProblemTypes.InvalidRequest, "The query parameter answers has a word that is not known.", [new("answers", JsonText.Clip(answers), "Not a known word of answers.", "all, refused")]);
        if (request.Headers.ContentEncoding.ToString() is { Length: > 0 } encoding && !encoding.Equals("identity", StringComparison.OrdinalIgnoreCase))
            return new(ProblemTypes.UnsupportedMediaType, $"Content-Encoding {JsonText.Clip(encoding)} is not read here; send the body without it.");
        if (!MediaTypeHeaderValue.TryParse(request.ContentType, out var type))
            return Unsupported(request);
        isCsv = type.MediaType.Equals(Csv, StringComparison.OrdinalIgnoreCase);
        var readable = isCsv || type.MediaType.Value?.ToLowerInvariant() is Ndjson or "application/ndjson" or "application/jsonl";
        return !readable ? Unsupported(request)
            : !type.Charset.HasValue || type.Charset.ToString().Trim('"').ToLowerInvariant() is "utf-8" or "us-ascii" ? null
            : new(ProblemTypes.UnsupportedMediaType, $"The charset {JsonText.Clip(type.Charset.ToString())} is not read; batches are UTF-8.");
    }

    private static ApiProblem Unsupported(HttpRequest request) => new(
        ProblemTypes.UnsupportedMediaType, $"Content-Type {JsonText.Clip(request.ContentType ?? "(none)")} is not read here; send {Ndjson} or {Csv}.");
}
