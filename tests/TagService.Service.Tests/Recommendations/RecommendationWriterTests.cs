using System.Collections;
using System.Reflection;
using System.Text;
using System.Text.Json;
using CsCheck;
using TagService.Api.Features.Recommendations;
using TagService.Api.Http.Json;
using TagService.Demo;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Service.Tests.Recommendations;

/// <summary>
/// The writer sends what the contract says: its bytes are those of System.Text.Json over the response records, which the
/// OpenAPI document describes. A member added to a record and forgotten in the writer fails here.
/// </summary>
public sealed class RecommendationWriterTests
{
    private static readonly RecommendationOptions[] Options =
        [new(false, true), new(false, false), new(true, true), new(true, false)];

    /// <summary>Nothing suits: the longest reach of a tag without a battery is far shorter (common practice).</summary>
    private static readonly AssetRecord OutOfReach = new() { Category = "ladder", Reading = new() { RequiredRangeM = 90 } };

    [Fact]
    public void Write_EveryAssetOfTheDemoFleet_IsWhatTheSerializerWrites() => Parallel.ForEach(
        DemoFleet.Generate(), asset => Same(RecommendationEngine.Recommend(asset.Record, Options[0]), [], asset.Record.AssetId, asset.Record.AssetId?.Length ?? 0));

    [Fact]
    public void Write_EveryIncludeOption_IsWhatTheSerializerWrites() => Parallel.ForEach(
        DemoFleet.Generate().Where((_, i) => i % 20 == 0).SelectMany(a => Options.Select(o => (a.Record, Options: o))),
        c => Same(RecommendationEngine.Recommend(c.Record, c.Options), [], c.Record.AssetId, 1));

    [Fact]
    public void Write_RandomRecord_IsWhatTheSerializerWrites() => AnswerSamples.Records.Sample(
        sample => Same(RecommendationEngine.Recommend(sample.Record, sample.Options), sample.OwnFields, sample.Record.AssetId, sample.Line),
        iter: 300);

    [Fact]
    public void Write_NothingSuits_IsWhatTheSerializerWrites()
    {
        var answer = RecommendationEngine.Recommend(OutOfReach);
        Assert.Null(answer.Recommendation);
        Same(answer, [], null, 1);
    }

    // What no answer shows, the comparison would not have seen.
    [Fact]
    public void Answers_Compared_ShowEveryMemberOfTheContract()
    {
        var shown = new HashSet<PropertyInfo>();
        foreach (var record in DemoFleet.Generate().Where((_, i) => i % 50 == 0).Select(a => a.Record).Append(OutOfReach))
            Collect(Response(RecommendationEngine.Recommend(record), [new("#/x", "text", "code")], "A-1", 1), shown);
        var all = shown.Select(p => p.DeclaringType!).Distinct().SelectMany(t => t.GetProperties()).Where(p => p.Name != "EqualityContract");
        Assert.Empty(all.Except(shown).Select(p => $"{p.DeclaringType!.Name}.{p.Name}"));
    }

    private static void Same(RecommendationAnswer answer, IReadOnlyList<Notice> ownFields, string? assetId, long line)
    {
        using var single = new JsonBytes();
        RecommendationWriter.Write(single, answer, ownFields);
        Equal(answer.ToResponse(ownFields), single);

        using var ofBatch = new JsonBytes();
        RecommendationWriter.WriteLine(ofBatch, answer, ownFields, assetId, line);
        Equal(Response(answer, ownFields, assetId, line), ofBatch);
    }

    private static RecommendationResponse Response(RecommendationAnswer answer, IReadOnlyList<Notice> ownFields, string? assetId, long line) =>
        answer.ToResponse(ownFields) with { AssetId = assetId, Line = line };

    private static void Equal(RecommendationResponse expected, JsonBytes written)
    {
        var bytes = JsonSerializer.SerializeToUtf8Bytes(expected, WireJson.Options);
        if (!written.Written.Span.SequenceEqual(bytes))
            Assert.Equal(Encoding.UTF8.GetString(bytes), Encoding.UTF8.GetString(written.Written.Span));
    }

    private static void Collect(object value, HashSet<PropertyInfo> shown)
    {
        if (value is IEnumerable items and not string)
        {
            foreach (var item in items)
                Collect(item, shown);
            return;
        }

        if (value.GetType().Namespace != typeof(RecommendationResponse).Namespace)
            return;
        foreach (var property in value.GetType().GetProperties())
        {
            if (property.GetValue(value) is not { } member || member is ICollection { Count: 0 })
                continue;
            shown.Add(property);
            Collect(member, shown);
        }
    }
}
