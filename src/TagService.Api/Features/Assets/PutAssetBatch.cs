using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Primitives;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>POST /v1/assets/batch.</summary>
internal static class PutAssetBatch
{
    private const string MediaType = "application/x-ndjson";

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/batch", Handle)
        .WithName("putAssetBatch")
        .WithSummary("Push a whole register")
        .WithDescription(
            "One asset a line in (NDJSON), each with its assetId and otherwise as PUT takes it; one answer a line out, in order, as a stream: created, changed or unchanged, "
            + "once that is durable, or a problem line with the line's number while the rest goes on. Lines are written some thousands at a time, all or none of them; sending the "
            + "same again changes nothing, so after any failure send it all again. Blank lines are left out. A line may have 1 MiB; the number of lines is not limited. "
            + "Assets that are not in the batch stay as they are. The last line holds the summary. If the database fails on the way the last line is a "
            + "problem that names the first line not written. Prefer: handling=strict refuses lines with the register's own fields at the top level.")
        .Accepts<AssetRequest>(MediaType)
        .Produces<AssetBatchLineResponse>(contentType: MediaType)
        .WithLineExamples(
            static () => [PutAsset.Example with { AssetId = "EW-PMC-00001" }],
            static () =>
            [
                new AssetBatchLineResponse { Line = 1, AssetId = "EW-PMC-00001", Outcome = AssetOutcome.Created },
                new AssetBatchLineResponse { Summary = new(1, 1, 0, 0, 0, new Dictionary<string, long>()) },
            ])
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.UnsupportedMediaType, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="writer">Writes assets.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="loggers">Makes the log.</param>
    private static async Task Handle(HttpContext context, AssetBulkWriter writer, TimeProvider clock, ILoggerFactory loggers)
    {
        var type = context.Request.ContentType?.Split(';')[0].Trim();
        if (type is not (MediaType or "application/ndjson" or "application/jsonl"))
        {
            await new ApiProblem(ProblemTypes.UnsupportedMediaType, $"A batch is read as {MediaType}: one JSON asset a line.").ExecuteAsync(context);
            return;
        }

        if (!StringValues.IsNullOrEmpty(context.Request.Headers.ContentEncoding) && context.Request.Headers.ContentEncoding != "identity")
        {
            await new ApiProblem(ProblemTypes.UnsupportedMediaType, "A batch is not read compressed; send it without Content-Encoding.").ExecuteAsync(context);
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = null;
        var options = AssetReader.ReadOptions with { RefuseOtherMembers = JsonRequest.PrefersStrict(context) };
        context.Response.ContentType = MediaType;
        var lines = new LineReader(context.Request.BodyReader, JsonReadOptions.SingleRecordBytes);
        var log = loggers.CreateLogger(typeof(PutAssetBatch).FullName!);
        await new AssetBatch(context, writer, options, clock, log).RunAsync(lines);
    }
}
