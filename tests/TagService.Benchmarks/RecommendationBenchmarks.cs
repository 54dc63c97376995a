using System.Text.Json;
using BenchmarkDotNet.Attributes;
using TagService.Api.Features.Recommendations;
using TagService.Api.Http.Json;
using TagService.Benchmarks.Load;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Benchmarks;

/// <summary>The parts of one recommendation, over a mix of some 245 different records.</summary>
[MemoryDiagnoser]
[ShortRunJob]
public class RecommendationBenchmarks
{
    private readonly byte[][] _bodies = [.. SampleRecords.Make()];
    private AssetRecord[] _records = [];
    private int _next;

    [GlobalSetup]
    public void Read() => _records = [.. _bodies.Select(b =>
        JsonSerializer.Deserialize<RecommendationRequest>(b, WireJson.Options)!.ToAssetRecord())];

    [Benchmark]
    public object Resolve() => ProfileResolution.Resolve(Next());

    [Benchmark]
    public object WithoutQuestions() => RecommendationEngine.Recommend(Next(), new(false, false));

    [Benchmark]
    public object WithQuestions() => RecommendationEngine.Recommend(Next(), new(false, true));

    [Benchmark]
    public int WithoutQuestionsToJson() => ToJson(new(false, false));

    [Benchmark]
    public int WithQuestionsToJson() => ToJson(new(false, true));

    private int ToJson(RecommendationOptions options)
    {
        using var json = new JsonBytes();
        RecommendationWriter.Write(json, RecommendationEngine.Recommend(Next(), options), []);
        return json.Length;
    }

    private AssetRecord Next() => _records[_next++ % _records.Length];
}
