using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Intake.Csv;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>POST /v1/assets/batch.</summary>
internal static class PutAssetBatch
{
    private const string MediaType = "application/x-ndjson";
    private const string Csv = "text/csv";

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/batch", Handle)
        .WithName("putAssetBatch")
        .WithSummary("Push a whole register")
        .WithDescription(
            "One asset a line in, as NDJSON or CSV, each with its assetId and otherwise as PUT takes it; one answer a line out, in order, as a stream: created, changed or unchanged, "
            + "once that is durable, or a problem line with the line's number while the rest goes on. Lines are written some thousands at a time, all or none of them; sending the "
            + "same again changes nothing, so after any failure send it all again. Blank lines are left out. A line may have 1 MiB; the number of lines is not limited. "
            + "Assets that are not in the batch stay as they are. The last line holds the summary. If the database fails on the way the last line is a "
            + "problem that names the first line not written. In CSV (RFC 4180, UTF-8, commas) the header names members by their path with dots, for example surface.material, and the register's "
            + "own fields by any other name; an empty cell says nothing, semicolons separate the items of a list, and retired.at or retired.reason retires. Prefer: handling=strict refuses lines with the register's own fields at the top level.")
        .Accepts<AssetRequest>(MediaType, Csv)
        .Produces<AssetBatchLineResponse>(contentType: MediaType)
        .WithLineExamples(
            static () => [PutAsset.Example with { AssetId = "EW-PMC-00001" }],
            "assetId,category,surface.material,environment.ipRequired,locationName,costCentre\r\nEW-PMC-00001,centrifugal pump,cast iron,IP66;IP68,Pump hall,4711\r\n",
            static () =>
            [
                new AssetBatchLineResponse { Line = 1, AssetId = "EW-PMC-00001", Outcome = AssetOutcome.Created },
                new AssetBatchLineResponse { Summary = new(1, 1, 0, 0, 0, new Dictionary<string, long>()) },
            ])
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.InvalidFields, ProblemTypes.UnsupportedMediaType, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="writer">Writes assets.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="loggers">Makes the log.</param>
    /// <param name="answers">Which lines are answered.</param>
    private static async Task Handle(
        HttpContext context,
        [FromServices] AssetBulkWriter writer,
        [FromServices] TimeProvider clock,
        [FromServices] ILoggerFactory loggers,
        [Description("all, or refused: only lines that were not taken or have a notice, and the summary. For senders that do not read while they send.")] string? answers)
    {
        if (Refusal(context.Request, answers, out var isCsv) is { } problem)
        {
            await problem.ExecuteAsync(context);
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = null;
        var options = AssetReader.ReadOptions with { RefuseOtherMembers = JsonRequest.PrefersStrict(context) };
        var lines = new AssetLines(options, clock);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
        await using var rows = isCsv ? CsvText.ReadAsync(context.Request.Body, options.MaxBytes, stop.Token).GetAsyncEnumerator(stop.Token) : null;
        IAsyncEnumerable<Func<AssetLine[]>> input;
        if (rows is null)
        {
            input = lines.NdjsonAsync(new(context.Request.BodyReader, options.MaxBytes), stop.Token);
        }
        else if (AssetCsvHeader.Read(await rows.MoveNextAsync() ? rows.Current : null, options.RefuseOtherMembers, out var wrong) is { } header)
        {
            input = lines.CsvAsync(rows, header, stop.Token);
        }
        else
        {
            await wrong!.ExecuteAsync(context);
            return;
        }

        context.Response.ContentType = MediaType;
        await new AssetBatch(context, writer, answers == "refused", loggers.CreateLogger(typeof(PutAssetBatch).FullName!)).RunAsync(input, stop);
    }

    private static ApiProblem? Refusal(HttpRequest request, string? answers, out bool isCsv)
    {
        isCsv = false;
        if (answers is not (null or "" or "all" or "refused"))
            return new(ProblemTypes.InvalidRequest, "The query parameter answers has a word that is not known.", [new("answers", JsonText.Clip(answers), "Not a known word of answers.", "all, refused")]);
        if (request.Headers.ContentEncoding.ToString() is { Length: > 0 } encoding && !encoding.Equals("identity", StringComparison.OrdinalIgnoreCase))
            return new(ProblemTypes.UnsupportedMediaType, $"Content-Encoding {JsonText.Clip(encoding)} is not read here; send the body without it.");
        var type = request.ContentType?.Split(';')[0].Trim().ToLowerInvariant();
        isCsv = type == Csv;
        return isCsv || type is MediaType or "application/ndjson" or "application/jsonl"
            ? null
            : new(ProblemTypes.UnsupportedMediaType, $"Content-Type {JsonText.Clip(type ?? "(none)")} is not read here; send {MediaType} or {Csv} in UTF-8.");
    }
}
