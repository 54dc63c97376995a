using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json.Nodes;

namespace TagService.Benchmarks.Attachments;

/// <summary>The service in a process of its own, on a database that is there.</summary>
internal sealed class OwnService : IDisposable
{
    private const int Looks = 21;
    private readonly Process _process;
    private readonly HttpClient _client;

    private OwnService(Process process, HttpClient client) => (_process, _client) = (process, client);

    /// <summary>Working set at each fifth of each batch, in MB.</summary>
    public List<string> Memory { get; } = [];

    public static async Task<OwnService> StartAsync(string path, string connectionString)
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var address = $"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}";
        listener.Stop();
        var start = new ProcessStartInfo("dotnet", [path, "--Urls", address, "--Roles", "api"]);
        start.Environment["ConnectionStrings__TagService"] = connectionString;
        var service = new OwnService(Process.Start(start)!, new() { BaseAddress = new(address), Timeout = Timeout.InfiniteTimeSpan });
        for (var i = 0; i < 240; i++)
        {
            try
            {
                if ((await service._client.GetAsync("/health/ready")).IsSuccessStatusCode)
                    return service;
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(250);
        }

        throw new TimeoutException("The service is not ready after a minute.");
    }

    /// <summary>Sends a batch; all of its lines have to come to the same.</summary>
    public async Task BatchAsync(IEnumerable<byte[]> lines, string type, string expected, int count)
    {
        var memory = new List<long>();
        using var content = new LinesContent(lines, count, () => memory.Add(WorkingSetMb()));
        content.Headers.ContentType = new(type);
        using var answer = await _client.PostAsync("/v1/attachments/batch?answers=refused", content);
        var last = (await answer.Content.ReadAsStringAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries)[^1];
        if ((int?)JsonNode.Parse(last)?["summary"]?[expected] != count)
            throw new InvalidOperationException($"Expected {count} {expected}, got {last}");
        Memory.Add(string.Join(", ", memory.Select(m => m.ToString(CultureInfo.InvariantCulture))));
    }

    /// <summary>Median time of a GET in ms, after two that do not count.</summary>
    public async Task<double> LatencyAsync(string path)
    {
        var times = new List<double>();
        for (var i = 0; i < Looks + 2; i++)
        {
            var started = Stopwatch.GetTimestamp();
            (await _client.GetAsync(path)).EnsureSuccessStatusCode();
            if (i >= 2)
                times.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
        }

        return times.Order().ElementAt(Looks / 2);
    }

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
        _client.Dispose();
    }

    private long WorkingSetMb()
    {
        _process.Refresh();
        return _process.WorkingSet64 / 1_000_000;
    }

    /// <summary>Lines made while they are sent.</summary>
    private sealed class LinesContent(IEnumerable<byte[]> lines, int count, Action atEachFifth) : HttpContent
    {
        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context)
        {
            var sent = 0;
            foreach (var line in lines)
            {
                await stream.WriteAsync(line);
                if (++sent % Math.Max(1, count / 5) == 0)
                    atEachFifth();
            }
        }

        protected override bool TryComputeLength(out long length)
        {
            length = 0;
            return false;
        }
    }
}
