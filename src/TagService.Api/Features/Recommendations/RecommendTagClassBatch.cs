using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Microsoft.Extensions.Logging;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>POST /v1/recommendations/batch.</summary>
internal static class RecommendTagClassBatch
{
    private const string MediaType = "application/x-ndjson";
    private static readonly RecommendationRequest Example = new() { AssetId = "L-117", Category = "laptop" };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/batch", Handle)
        .WithName("recommendTagClassBatch")
        .WithSummary("Recommend tag classes for a whole register")
        .WithDescription(
            "One asset record a line in (NDJSON), one answer a line out, in order, as a stream. A line that cannot be answered yields a "
            + "problem line with its number, and the rest goes on. Blank lines are left out. A line may have 1 MiB; the number of lines is not "
            + "limited. Best read the answers while sending. A client that reads nothing before it has sent everything is served too: its "
            + "answers are kept in a temporary file, packed, of 2 GB unless the service is set up otherwise and shared by all batches. When "
            + "that is full and nothing has been read for 30 seconds, the remaining lines are taken without being answered, and the last line "
            + "of the answer is the problem answers-not-read with the number of the first of them. Who has sent everything and reads nothing for "
            + "5 minutes is cut off. Questions are left out unless include=questions. The trailers Tagservice-Lines and "
            + "Tagservice-Refused-Lines count at the end; while single requests are answered, batches leave them a core.")
        .Accepts<RecommendationRequest>(MediaType)
        .Produces<RecommendationResponse>(contentType: MediaType)
        .WithLineExamples(static () => [Example], static () => [ExampleAnswer()])
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.UnsupportedMediaType);

    /// <param name="context">The request.</param>
    /// <param name="include">Comma-separated: all, questions.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="spooling">What is kept for callers who do not read.</param>
    /// <param name="loggers">Makes the log of progress.</param>
    /// <param name="time">Clock of the log of progress.</param>
    private static async Task Handle(
        HttpContext context, string? include, RecommendationContextSource contexts, BatchSpooling spooling, ILoggerFactory loggers, TimeProvider time)
    {
        if (Refusal(context.Request, include, out var options) is { } problem)
        {
            await problem.ExecuteAsync(context);
            return;
        }

        LiftLimits(context);
        context.Response.ContentType = MediaType;
        var log = loggers.CreateLogger(typeof(RecommendTagClassBatch).FullName!);
        // One catalogue for the whole batch: its lines can be compared with each other.
        var lines = new RecommendationLines(context, options, contexts.Current, log, time);
        try
        {
            await new OrderedPipeline(lines, spooling, time).RunAsync(
                new(context.Request.BodyReader, JsonReadOptions.SingleRecordBytes), context.Response.BodyWriter, context.RequestAborted);
        }
        catch (TimeoutException e)
        {
            log.LogWarning("Batch of recommendations cut off after {Lines} lines: {Reason}", lines.Lines, e.Message);
            context.Abort();
            return;
        }

        lines.End();
        if (!context.Response.SupportsTrailers())
            return;
        context.Response.AppendTrailer("Tagservice-Lines", lines.Lines.ToString(CultureInfo.InvariantCulture));
        context.Response.AppendTrailer("Tagservice-Refused-Lines", lines.Refused.ToString(CultureInfo.InvariantCulture));
    }

    // The pipeline itself sees to callers who do not read; the server would cut off those who are still sending.
    private static void LiftLimits(HttpContext context)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
            size.MaxRequestBodySize = null;
        if (context.Features.Get<IHttpMinResponseDataRateFeature>() is { } rate)
            rate.MinDataRate = null;
    }

    private static ApiProblem? Refusal(HttpRequest request, string? include, out RecommendationOptions options)
    {
        if (IncludeOption.ParseBatch(include, out options) is { } refused)
            return refused;
        var type = request.ContentType?.Split(';')[0].Trim();
        return type is MediaType or "application/ndjson" or "application/jsonl"
            ? null
            : new(ProblemTypes.UnsupportedMediaType, $"A batch is read as {MediaType}: one JSON record a line.");
    }

    private static RecommendationResponse ExampleAnswer() =>
        RecommendationEngine.Recommend(Example.ToAssetRecord(), new(IncludeAll: false, IncludeQuestions: false), RecommendationContext.BuiltIn)
            .ToResponse([]) with { AssetId = Example.AssetId, Line = 1 };
}
