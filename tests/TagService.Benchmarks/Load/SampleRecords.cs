using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Demo;

namespace TagService.Benchmarks.Load;

/// <summary>Asset records as a register would send them, thin to full: every tenth asset of the invented demo fleet.</summary>
internal static class SampleRecords
{
    /// <summary>Some 245 different request bodies.</summary>
    public static IReadOnlyList<byte[]> Make() =>
        [.. DemoFleet.Generate().Where((_, i) => i % 10 == 0).Select(a => JsonSerializer.SerializeToUtf8Bytes(a.Record, WireJson.Options))];
}
