using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>Answers the lines of one batch, says every ten seconds how far a long one is, and counts it at the end.</summary>
internal sealed class RecommendationLines(
    HttpContext context, RecommendationOptions options, RecommendationContext catalogue, ILogger log, TimeProvider time) : ILineAnswers
{
    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = WireJson.Options.Encoder };
    private static readonly TimeSpan LogEvery = TimeSpan.FromSeconds(10);

    private readonly long _started = time.GetTimestamp();
    private long _said = time.GetTimestamp();

    /// <summary>Lines so far.</summary>
    public long Lines { get; private set; }

    /// <summary>Those of them that are problems.</summary>
    public long Refused { get; private set; }

    public bool Answer(Line line, JsonBytes json)
    {
        if (line.TooLong)
            return Refuse(json, line.Number, JsonRequest.TooLarge(JsonReadOptions.Default));
        var body = JsonBody.Read<RecommendationRequest>(line.Text, RecommendTagClass.ReadOptions);
        if (!body.IsRead)
            return Refuse(json, line.Number, body.Problem);
        var record = body.Value.ToAssetRecord();
        if (RecordProblems.Find(record) is { } contradiction)
            return Refuse(json, line.Number, contradiction);
        RecommendationWriter.WriteLine(
            json, RecommendationEngine.Recommend(record, options, catalogue), body.Value.OwnFieldNotices(), record.AssetId, line.Number);
        return true;
    }

    public void NotRead(JsonBytes json, long firstLine, long lastLine) => Refuse(json, firstLine, new(
        ProblemTypes.AnswersNotRead,
        $"The lines from {firstLine} to {lastLine} were taken but not answered: no answer was read meanwhile, and the room for unread answers was full."));

    public void Report(long answered, long refused)
    {
        (Lines, Refused) = (answered, refused);
        if (time.GetElapsedTime(_said) < LogEvery)
            return;
        _said = time.GetTimestamp();
        Say("Batch of recommendations: {Lines} lines so far, {Refused} of them refused, {PerSecond:0} a second");
    }

    /// <summary>Says how the batch ended.</summary>
    public void End() => Say("Batch of recommendations ended: {Lines} lines, {Refused} of them refused, {PerSecond:0} a second");

    private bool Refuse(JsonBytes json, long line, ApiProblem problem)
    {
        using var writer = new Utf8JsonWriter(json, WriterOptions);
        JsonSerializer.Serialize(writer, problem.ToResponse(context) with { Line = line }, WireJson.Options);
        return false;
    }

    private void Say(string template) =>
#pragma warning disable CA2254 // Two constant templates, one place that fills them.
        log.LogInformation(template, Lines, Refused, Lines / time.GetElapsedTime(_started).TotalSeconds);
#pragma warning restore CA2254
}
