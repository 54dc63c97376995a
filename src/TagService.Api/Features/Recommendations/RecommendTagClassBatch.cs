using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
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
    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = WireJson.Options.Encoder };
    private static readonly TimeSpan LogEvery = TimeSpan.FromSeconds(10);
    private static readonly RecommendationRequest Example = new() { AssetId = "L-117", Category = "laptop" };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/batch", Handle)
        .WithName("recommendTagClassBatch")
        .WithSummary("Recommend tag classes for a whole register")
        .WithDescription(
            "One asset record a line in (NDJSON), one answer a line out, in order, as a stream: read the answers while sending. A line that cannot "
            + "be answered yields a problem line with its number, and the rest goes on. Blank lines are left out. A line may have 1 MiB; the "
            + "number of lines is not limited. Questions are left out unless include=questions. The trailers Tagservice-Lines and "
            + "Tagservice-Refused-Lines count at the end; while single requests are answered, batches leave them a core.")
        .Accepts<RecommendationRequest>(MediaType)
        .Produces<RecommendationResponse>(contentType: MediaType)
        .WithLineExamples(static () => [Example], static () => [ExampleAnswer()])
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.UnsupportedMediaType);

    /// <param name="context">The request.</param>
    /// <param name="include">Comma-separated: all, questions.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="loggers">Makes the log of progress.</param>
    /// <param name="time">Clock of the log of progress.</param>
    private static async Task Handle(
        HttpContext context, string? include, RecommendationContextSource contexts, ILoggerFactory loggers, TimeProvider time)
    {
        if (Refusal(context.Request, include, out var options) is { } problem)
        {
            await problem.ExecuteAsync(context);
            return;
        }

        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            limit.MaxRequestBodySize = null;
        context.Response.ContentType = MediaType;
        var log = loggers.CreateLogger(typeof(RecommendTagClassBatch).FullName!);
        var progress = new Progress(log, time);
        // One catalogue for the whole batch: its lines can be compared with each other.
        var catalogue = contexts.Current;
        await OrderedPipeline.RunAsync(
            new(context.Request.BodyReader, JsonReadOptions.SingleRecordBytes),
            context.Response.BodyWriter,
            (line, json) => Answer(line, json, options, catalogue, context),
            progress.Report,
            context.RequestAborted);
        progress.End(context.Response);
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

    private static bool Answer(Line line, JsonBytes json, RecommendationOptions options, RecommendationContext catalogue, HttpContext context)
    {
        if (line.TooLong)
            return Refuse(json, line, JsonRequest.TooLarge(JsonReadOptions.Default), context);
        var body = JsonBody.Read<RecommendationRequest>(line.Text, RecommendTagClass.ReadOptions);
        if (!body.IsRead)
            return Refuse(json, line, body.Problem, context);
        var record = body.Value.ToAssetRecord();
        if (RecordProblems.Find(record) is { } contradiction)
            return Refuse(json, line, contradiction, context);
        RecommendationWriter.WriteLine(
            json, RecommendationEngine.Recommend(record, options, catalogue), body.Value.OwnFieldNotices(), record.AssetId, line.Number);
        return true;
    }

    private static RecommendationResponse ExampleAnswer() =>
        RecommendationEngine.Recommend(Example.ToAssetRecord(), new(IncludeAll: false, IncludeQuestions: false), RecommendationContext.BuiltIn)
            .ToResponse([]) with { AssetId = Example.AssetId, Line = 1 };

    private static bool Refuse(JsonBytes json, Line line, ApiProblem problem, HttpContext context)
    {
        using var writer = new Utf8JsonWriter(json, WriterOptions);
        JsonSerializer.Serialize(writer, problem.ToResponse(context) with { Line = line.Number }, WireJson.Options);
        return false;
    }

    /// <summary>Says every ten seconds how far a long batch is, and counts it at the end.</summary>
    private sealed class Progress(ILogger log, TimeProvider time)
    {
        private readonly long _started = time.GetTimestamp();
        private long _said = time.GetTimestamp();
        private long _answered;
        private long _refused;

        public void Report(long answered, long refused)
        {
            (_answered, _refused) = (answered, refused);
            if (time.GetElapsedTime(_said) < LogEvery)
                return;
            _said = time.GetTimestamp();
            Say("Batch of recommendations: {Lines} lines so far, {Refused} of them refused, {PerSecond:0} a second");
        }

        public void End(HttpResponse response)
        {
            Say("Batch of recommendations ended: {Lines} lines, {Refused} of them refused, {PerSecond:0} a second");
            if (!response.SupportsTrailers())
                return;
            response.AppendTrailer("Tagservice-Lines", _answered.ToString(CultureInfo.InvariantCulture));
            response.AppendTrailer("Tagservice-Refused-Lines", _refused.ToString(CultureInfo.InvariantCulture));
        }

        private void Say(string template) =>
#pragma warning disable CA2254 // Two constant templates, one place that fills them.
            log.LogInformation(template, _answered, _refused, _answered / time.GetElapsedTime(_started).TotalSeconds);
#pragma warning restore CA2254
    }
}
