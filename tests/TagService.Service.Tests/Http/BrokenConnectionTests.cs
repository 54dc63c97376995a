using System.Net.Sockets;
using System.Text;

namespace TagService.Service.Tests.Http;

/// <summary>Bytes that no client library sends. Expected answers: RFC 9112 (message syntax), RFC 6585 (431).</summary>
public sealed class BrokenConnectionTests(ProbeHost host) : IClassFixture<ProbeHost>
{
    [Theory]
    [InlineData("POST /probe/records HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nZZ\r\n{}\r\n0\r\n\r\n", "400", true)]
    [InlineData("POST /probe/records HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: -1\r\n\r\n{}", "400", false)]
    [InlineData("GET /probe/number/1 HTTP/1.1\r\n\r\n", "400", false)]
    [InlineData("no http at all\r\n\r\n", "400", false)]
    [InlineData("BREW /probe/records HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n", "405", true)]
    public async Task Send_BrokenRequest_IsRefused(string request, string status, bool withProblem)
    {
        var answer = await Send(request);

        Assert.StartsWith($"HTTP/1.1 {status} ", answer, StringComparison.Ordinal);
        // What breaks before the server has a whole header is refused by the server itself, without a body.
        Assert.Equal(withProblem, answer.Contains("application/problem+json", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Send_HugeHeader_Is431()
    {
        var answer = await Send($"GET /health/live HTTP/1.1\r\nHost: a\r\nX: {new string('x', 40_000)}\r\n\r\n");

        Assert.StartsWith("HTTP/1.1 431 ", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Send_HalfABodyAndHangUp_LeavesTheServiceAlive()
    {
        using (var client = await Connect())
            await client.GetStream().WriteAsync("POST /probe/records HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{\"a"u8.ToArray());

        using var alive = await host.Client.GetAsync("/health/live");

        Assert.True(alive.IsSuccessStatusCode);
    }

    private async Task<string> Send(string request)
    {
        using var client = await Connect();
        await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes(request));
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(10));
        var buffer = new byte[8192];
        var read = await client.GetStream().ReadAsync(buffer, limit.Token);
        return Encoding.UTF8.GetString(buffer, 0, read);
    }

    private async Task<TcpClient> Connect()
    {
        var client = new TcpClient();
        await client.ConnectAsync(host.Client.BaseAddress!.Host, host.Client.BaseAddress.Port);
        return client;
    }
}
