using System.Diagnostics;

namespace TagService.Benchmarks.Load;

/// <summary>Outcome of one load run.</summary>
/// <param name="PerSecond">Answers a second.</param>
/// <param name="P50Ms">Median latency in ms.</param>
/// <param name="P99Ms">99th percentile of latency in ms.</param>
internal sealed record LoadResult(double PerSecond, double P50Ms, double P99Ms);

/// <summary>Closed-loop load: each connection sends its next request when the last is answered, or at a given pace.</summary>
internal static class LoadRun
{
    /// <param name="port">Server's port.</param>
    /// <param name="requests">Prepared requests, used in turn.</param>
    /// <param name="connections">Connections.</param>
    /// <param name="seconds">Length of the run.</param>
    /// <param name="perSecond">Total pace; 0 for as fast as possible.</param>
    public static async Task<LoadResult> RunAsync(
        int port, IReadOnlyList<byte[]> requests, int connections, double seconds, double perSecond = 0)
    {
        var clock = Stopwatch.StartNew();
        var end = TimeSpan.FromSeconds(seconds);
        var tasks = Enumerable.Range(0, connections).Select(async lane =>
        {
            var latencies = new List<double>(1 << 14);
            using var client = new SocketClient();
            await client.ConnectAsync(port);
            var next = lane * 7;
            var due = TimeSpan.FromSeconds(perSecond > 0 ? lane / perSecond : 0);
            while (clock.Elapsed < end)
            {
                if (perSecond > 0)
                {
                    var wait = due - clock.Elapsed;
                    if (wait > TimeSpan.FromMilliseconds(1))
                        await Task.Delay(wait);
                    due += TimeSpan.FromSeconds(connections / perSecond);
                }

                var from = clock.Elapsed;
                var (status, _) = await client.SendAsync(requests[next++ % requests.Count]);
                if (status != 200)
                    throw new InvalidOperationException($"The server answered {status}.");
                latencies.Add((clock.Elapsed - from).TotalMilliseconds);
            }

            return latencies;
        });
        var all = (await Task.WhenAll(tasks)).SelectMany(l => l).ToArray();
        var took = clock.Elapsed.TotalSeconds;
        Array.Sort(all);
        return new(all.Length / took, all[all.Length / 2], all[(int)(all.Length * 0.99)]);
    }
}
