using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace TagService.Benchmarks.Load;

/// <summary>
/// <c>load</c>: requests a second and latency of POST /v1/recommendations beside a floor that reads the same bodies and
/// writes the same bytes, both in their own processes, in turns, medians of five.
/// </summary>
internal static class LoadCommand
{
    private const int Rounds = 5;
    private const double Seconds = 5;
    private const int Connections = 64;

    /// <param name="servicePath">The service's assembly.</param>
    /// <param name="batchLines">Lines of the batch at the end.</param>
    public static Task RunAsync(string servicePath, int batchLines) => WithServiceAsync(servicePath, async (bodies, folder, servicePort, service) =>
    {
        var floorPort = FreePort();
        using var floor = new Child();
        foreach (var (name, query) in new[] { ("default answer", ""), ("without questions", "?include=no-questions") })
        {
            var requests = bodies.Select(b => SocketClient.Post($"/v1/recommendations{query}", b)).ToArray();
            await SaveAnswersAsync(servicePort, requests, folder);
            floor.Replace(Start("dotnet", typeof(LoadCommand).Assembly.Location, "floor", floorPort.ToString(System.Globalization.CultureInfo.InvariantCulture), folder));
            await WaitAsync(floorPort);
            var floorRequests = bodies.Select((b, i) => SocketClient.Post($"/floor/{i}", b)).ToArray();
            await CompareAsync(name, servicePort, requests, floorPort, floorRequests);
        }

        floor.Kill();
        var batch = await BatchLoad.RunAsync(servicePort, bodies, batchLines, service);
        Console.WriteLine(FormattableString.Invariant(
            $"batch of {batchLines} lines: {batch.PerSecond:0} records/s, memory at each fifth {string.Join(", ", batch.MemoryMb.Select(m => m.ToString("0", System.Globalization.CultureInfo.InvariantCulture)))} MB"));
    });

    /// <summary><c>growth</c>: one connection, many requests; latency and the service's memory at each fifth.</summary>
    /// <param name="servicePath">The service's assembly.</param>
    /// <param name="count">Requests.</param>
    public static Task GrowthAsync(string servicePath, int count) => WithServiceAsync(servicePath, async (bodies, _, port, service) =>
    {
        var requests = bodies.Select(b => SocketClient.Post("/v1/recommendations", b)).ToArray();
        await LoadRun.RunAsync(port, requests, 1, Seconds);
        foreach (var part in await GrowthLoad.RunAsync(port, requests, count, service))
            Console.WriteLine(FormattableString.Invariant($"{count / 5} requests: p50 {part.P50Ms * 1000:0} us, p99 {part.P99Ms * 1000:0} us, memory {part.MemoryMb:0} MB"));
    });

    private static async Task WithServiceAsync(string servicePath, Func<IReadOnlyList<byte[]>, string, int, Process, Task> measure)
    {
        var bodies = SampleRecords.Make();
        // Not CreateTempSubdirectory: started as root, the private database runs under another account, which must get in.
        var folder = Directory.CreateDirectory(Path.Combine(Path.GetTempPath(), $"tagservice-load-{Environment.ProcessId}")).FullName;
        var port = FreePort();
        using var service = Start(
            "dotnet", servicePath, "--urls", $"http://127.0.0.1:{port}", "--roles", "api", "--LocalDatabase:Folder", Path.Combine(folder, "database"));
        try
        {
            await WaitAsync(port);
            await measure(bodies, folder, port, service.Process);
        }
        finally
        {
            service.Kill();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task CompareAsync(
        string name, int port, byte[][] requests, int floorPort, byte[][] floorRequests)
    {
        // The JIT needs some ten thousand calls before the tiered code is in place; both sides get the same warm-up.
        await LoadRun.RunAsync(port, requests, Connections, Seconds);
        await LoadRun.RunAsync(floorPort, floorRequests, Connections, Seconds / 2);
        var all = new List<(LoadResult Service, LoadResult Floor)>();
        var one = new List<(LoadResult Service, LoadResult Floor)>();
        for (var round = 0; round < Rounds; round++)
        {
            all.Add((await LoadRun.RunAsync(port, requests, Connections, Seconds),
                await LoadRun.RunAsync(floorPort, floorRequests, Connections, Seconds)));
            one.Add((await LoadRun.RunAsync(port, requests, 1, Seconds / 2),
                await LoadRun.RunAsync(floorPort, floorRequests, 1, Seconds / 2)));
        }

        var half = await LoadRun.RunAsync(port, requests, Connections, Seconds, Median(all, r => r.Service.PerSecond) / 2);
        var floorHalf = await LoadRun.RunAsync(floorPort, floorRequests, Connections, Seconds, Median(all, r => r.Floor.PerSecond) / 2);
        Console.WriteLine(FormattableString.Invariant(
            $"""
            {name}, {requests.Length} records, medians of {Rounds}
              {Connections} connections: service {Median(all, r => r.Service.PerSecond):0} /s, floor {Median(all, r => r.Floor.PerSecond):0} /s, ratio {Median(all, r => r.Service.PerSecond / r.Floor.PerSecond):0.000}
              p99 at half load: service {half.P99Ms:0.0} ms, floor {floorHalf.P99Ms:0.0} ms, ratio {half.P99Ms / floorHalf.P99Ms:0.0}
              one connection p50: service {Median(one, r => r.Service.P50Ms) * 1000:0} us, floor {Median(one, r => r.Floor.P50Ms) * 1000:0} us, ratio {Median(one, r => r.Service.P50Ms / r.Floor.P50Ms):0.0}
            """));
    }

    private static double Median<T>(List<T> rows, Func<T, double> pick)
    {
        var sorted = rows.Select(pick).Order().ToArray();
        return sorted[sorted.Length / 2];
    }

    private static async Task SaveAnswersAsync(int port, byte[][] requests, string folder)
    {
        using var client = new SocketClient();
        await client.ConnectAsync(port);
        for (var i = 0; i < requests.Length; i++)
        {
            var (status, body) = await client.SendAsync(requests[i], keepBody: true);
            if (status != 200)
                throw new InvalidOperationException($"Record {i}: the service answered {status}.");
            await File.WriteAllBytesAsync(Path.Combine(folder, $"{i:0000}.answer"), body!);
        }
    }

    private static async Task WaitAsync(int port)
    {
        for (var i = 0; i < 240; i++)
        {
            try
            {
                using var probe = new TcpClient();
                await probe.ConnectAsync(IPAddress.Loopback, port);
                return;
            }
            catch (SocketException)
            {
                await Task.Delay(250);
            }
        }

        throw new TimeoutException($"Nothing listens on port {port} after a minute.");
    }

    private static Child Start(string program, params string[] arguments)
    {
        var child = new Child();
        child.Replace(Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = false })!);
        return child;
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private sealed class Child : IDisposable
    {
        private Process? _process;

        public void Replace(Child other)
        {
            Kill();
            (_process, other._process) = (other._process, null);
        }

        public Process Process => _process!;

        public void Replace(Process process) => _process = process;

        public void Kill()
        {
            if (_process is { HasExited: false })
            {
                // Asked first, so that the service can stop its private database.
                Process.Start("kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)])!.WaitForExit();
                if (!_process.WaitForExit(20_000))
                    _process.Kill(entireProcessTree: true);
            }
        }

        public void Dispose()
        {
            Kill();
            _process?.Dispose();
        }
    }
}
