using System.Diagnostics;

namespace TagService.Benchmarks.Load;

/// <summary>Many requests over one connection: does the answer get slower, does the server's memory grow?</summary>
internal static class GrowthLoad
{
    private const int Parts = 5;

    /// <summary>One part of the run.</summary>
    /// <param name="P50Ms">Median latency in ms.</param>
    /// <param name="P99Ms">99th percentile of latency in ms.</param>
    /// <param name="MemoryMb">The server's working set in MB at its end.</param>
    internal sealed record Part(double P50Ms, double P99Ms, double MemoryMb);

    /// <param name="port">Server's port.</param>
    /// <param name="requests">Prepared requests, used in turn.</param>
    /// <param name="count">Requests in all.</param>
    /// <param name="server">The server, for its memory.</param>
    public static async Task<IReadOnlyList<Part>> RunAsync(int port, IReadOnlyList<byte[]> requests, int count, Process server)
    {
        using var client = new SocketClient();
        await client.ConnectAsync(port);
        var parts = new List<Part>();
        var latencies = new double[count / Parts];
        for (var part = 0; part < Parts; part++)
        {
            for (var i = 0; i < latencies.Length; i++)
            {
                var from = Stopwatch.GetTimestamp();
                var (status, _) = await client.SendAsync(requests[i % requests.Count]);
                if (status != 200)
                    throw new InvalidOperationException($"The server answered {status}.");
                latencies[i] = Stopwatch.GetElapsedTime(from).TotalMilliseconds;
            }

            Array.Sort(latencies);
            server.Refresh();
            parts.Add(new(latencies[latencies.Length / 2], latencies[(int)(latencies.Length * 0.99)], server.WorkingSet64 / 1e6));
        }

        return parts;
    }
}
