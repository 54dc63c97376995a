using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Recommendations;

/// <summary>A client as simple as they come: it sends the whole register over a socket before it reads a byte. Invented records.</summary>
[Collection(TestDatabase.Collection)]
public sealed class BatchWithoutReadingTests(TestDatabase database) : IAsyncLifetime
{
    private const int Lines = 50_000;

    private readonly RealHost _host = new(database);

    public Task InitializeAsync() => _host.InitializeAsync();

    public Task DisposeAsync() => _host.DisposeAsync();

    [Fact]
    public async Task Batch_FiftyThousandLinesSentBeforeTheFirstByteIsRead_AreAllAnsweredInOrder()
    {
        using var socket = new TcpClient("127.0.0.1", _host.Client.BaseAddress!.Port);
        // Whoever waits for whom: the test must not wait for ever.
        using var limit = new CancellationTokenSource(TimeSpan.FromMinutes(4));
        var stream = socket.GetStream();
        var body = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(1, Lines).Select(LineOf)));
        await stream.WriteAsync(Encoding.ASCII.GetBytes(
            $"POST /v1/recommendations/batch HTTP/1.0\r\nContent-Type: application/x-ndjson\r\nContent-Length: {body.Length}\r\n\r\n"),
            limit.Token);
        await stream.WriteAsync(body, limit.Token);

        // HTTP/1.0: the answer comes without the framing of chunks.
        using var reader = new StreamReader(stream, Encoding.UTF8, false, 1 << 16);
        Assert.Equal("HTTP/1.1 200 OK", await reader.ReadLineAsync(limit.Token));
        while (await reader.ReadLineAsync(limit.Token) is { Length: > 0 })
        {
            // Headers.
        }

        var (answered, bytes) = (0, 0L);
        while (await reader.ReadLineAsync(limit.Token) is { } line)
        {
            bytes += line.Length;
            answered++;
            if (IsRecord(answered))
                Assert.EndsWith($"\"assetId\":\"A-{answered}\",\"line\":{answered}}}", line, StringComparison.Ordinal);
            else
                Assert.Equal(answered, JsonDocument.Parse(line).RootElement.GetProperty("line").GetInt32());
        }

        Assert.Equal(Lines, answered);
        // Far more than the buffers of two sockets and a server hold.
        Assert.InRange(bytes, 100_000_000, long.MaxValue);
    }

    // Most lines are refused, which is quickly done; the answers to the others are long enough.
    private static string LineOf(int number) => IsRecord(number) ? $$"""{"assetId":"A-{{number}}","category":"laptop"}""" + "\n" : "no record\n";

    private static bool IsRecord(int number) => number % 10 == 0;
}
