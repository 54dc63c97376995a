using System.Net;
using System.Net.Sockets;
using System.Text;

namespace TagService.Benchmarks.Load;

/// <summary>
/// One keep-alive HTTP/1.1 connection over a raw socket: sends prepared requests, reads answers by content length or
/// chunks. Much cheaper than HttpClient, so that the load generator takes as little of the shared cores as it can.
/// </summary>
internal sealed class SocketClient : IDisposable
{
    private readonly Socket _socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
    private byte[] _buffer = new byte[1 << 16];
    private int _filled;

    public async Task ConnectAsync(int port) => await _socket.ConnectAsync(IPAddress.Loopback, port);

    /// <summary>Makes the bytes of one POST.</summary>
    public static byte[] Post(string path, ReadOnlySpan<byte> body, string extraHeaders = "")
    {
        var head = Encoding.ASCII.GetBytes(
            $"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: {body.Length}\r\n{extraHeaders}\r\n");
        return [.. head, .. body];
    }

    /// <summary>Sends one prepared request and reads its whole answer.</summary>
    /// <returns>Status and, when asked for, the body.</returns>
    public async ValueTask<(int Status, byte[]? Body)> SendAsync(ReadOnlyMemory<byte> request, bool keepBody = false)
    {
        while (request.Length > 0)
            request = request[await _socket.SendAsync(request)..];
        int headerEnd;
        while ((headerEnd = _buffer.AsSpan(0, _filled).IndexOf("\r\n\r\n"u8)) < 0)
            await FillAsync();
        var head = Encoding.ASCII.GetString(_buffer, 0, headerEnd);
        var status = int.Parse(head.AsSpan(9, 3));
        var bodyStart = headerEnd + 4;
        if (head.Contains("Transfer-Encoding: chunked", StringComparison.OrdinalIgnoreCase))
            return (status, await ReadChunkedAsync(bodyStart, keepBody));
        var at = head.IndexOf("Content-Length: ", StringComparison.OrdinalIgnoreCase);
        var length = at < 0 ? 0 : int.Parse(head.AsSpan(at + 16, LineLength(head, at + 16)));
        while (_filled < bodyStart + length)
            await FillAsync();
        var body = keepBody ? _buffer.AsSpan(bodyStart, length).ToArray() : null;
        Consume(bodyStart + length);
        return (status, body);
    }

    public void Dispose() => _socket.Dispose();

    private async ValueTask<byte[]?> ReadChunkedAsync(int at, bool keep)
    {
        var body = keep ? new MemoryStream() : null;
        while (true)
        {
            int lineEnd;
            while ((lineEnd = _buffer.AsSpan(at, _filled - at).IndexOf("\r\n"u8)) < 0)
                await FillAsync();
            var size = int.Parse(
                Encoding.ASCII.GetString(_buffer, at, lineEnd), System.Globalization.NumberStyles.HexNumber);
            at += lineEnd + 2;
            while (_filled < at + size + 2)
                await FillAsync();
            body?.Write(_buffer, at, size);
            at += size + 2;
            if (size != 0)
                continue;
            Consume(at);
            return body?.ToArray();
        }
    }

    private async ValueTask FillAsync()
    {
        if (_filled == _buffer.Length)
            Array.Resize(ref _buffer, _buffer.Length * 2);
        var read = await _socket.ReceiveAsync(_buffer.AsMemory(_filled));
        if (read == 0)
            throw new IOException("The server closed the connection.");
        _filled += read;
    }

    private void Consume(int count)
    {
        _buffer.AsSpan(count, _filled - count).CopyTo(_buffer);
        _filled -= count;
    }

    private static int LineLength(string head, int from)
    {
        var end = head.IndexOf('\r', from);
        return (end < 0 ? head.Length : end) - from;
    }
}
