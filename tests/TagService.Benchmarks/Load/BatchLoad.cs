using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace TagService.Benchmarks.Load;

/// <summary>One long batch: lines sent and answers read at the same time over one connection, the server's memory watched.</summary>
internal static class BatchLoad
{
    /// <summary>Outcome of one batch.</summary>
    /// <param name="PerSecond">Records a second.</param>
    /// <param name="MemoryMb">The server's working set in MB at each fifth of the batch.</param>
    internal sealed record Result(double PerSecond, IReadOnlyList<double> MemoryMb);

    /// <param name="port">Server's port.</param>
    /// <param name="bodies">Records, used in turn.</param>
    /// <param name="count">Lines to send.</param>
    /// <param name="server">The server, for its memory.</param>
    public static async Task<Result> RunAsync(int port, IReadOnlyList<byte[]> bodies, int count, Process server)
    {
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        await socket.ConnectAsync(IPAddress.Loopback, port);
        await using var stream = new NetworkStream(socket);
        await stream.WriteAsync(
            "POST /v1/recommendations/batch HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n"u8.ToArray());
        var clock = Stopwatch.StartNew();
        var sending = SendAsync(stream, bodies, count);
        var memory = await ReadAsync(stream, count, server);
        await sending;
        return new(count / clock.Elapsed.TotalSeconds, memory);
    }

    private static async Task SendAsync(NetworkStream stream, IReadOnlyList<byte[]> bodies, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var body = bodies[i % bodies.Count];
            await stream.WriteAsync((byte[])[.. Encoding.ASCII.GetBytes($"{body.Length + 1:x}\r\n"), .. body, .. "\n\r\n"u8]);
        }

        await stream.WriteAsync("0\r\n\r\n"u8.ToArray());
    }

    private static async Task<List<double>> ReadAsync(NetworkStream stream, int count, Process server)
    {
        var memory = new List<double>();
        var buffer = new byte[1 << 18];
        int answered = 0, before = 0;
        while (answered < count)
        {
            var read = await stream.ReadAsync(buffer);
            if (read == 0)
                throw new IOException($"The server closed the connection after {answered} of {count} answers.");
            // The end of an answer; the line ends of the chunked framing follow a carriage return.
            if (before == '}' && buffer[0] == '\n')
                answered++;
            answered += buffer.AsSpan(0, read).Count("}\n"u8);
            before = buffer[read - 1];

            if (answered >= (memory.Count + 1) * count / 5)
            {
                server.Refresh();
                memory.Add(server.WorkingSet64 / 1e6);
            }
        }

        return memory;
    }
}
