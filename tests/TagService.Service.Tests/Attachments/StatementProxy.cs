using System.Buffers.Binary;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace TagService.Service.Tests.Attachments;

/// <summary>
/// Stands between a service and PostgreSQL and counts the statements that go by (PostgreSQL manual, "Frontend/Backend Protocol":
/// after the start-up message each message is a type byte and a length; Sync, Query and CopyDone end what the server acts on).
/// When the wanted number has been carried out, everything stands still: its answer does not come back, and nothing more goes on.
/// </summary>
internal sealed class StatementProxy : IAsyncDisposable
{
    // A service's look for a changed catalogue; and statements after which the database is as it was before.
    private static readonly string[] NotCounted = ["tag_class_overlays", "SAVEPOINT", "DISCARD ALL", "BEGIN TRANSACTION"];

    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _stop = new();
    private readonly string _host;
    private readonly int _port;
    private readonly Lock _gate = new();
    private readonly List<string> _statements = [];
    private TaskCompletionSource _still = New();
    private int _left = int.MaxValue;
    private bool _counting;
    private volatile bool _last;

    public StatementProxy(string host, int port)
    {
        (_host, _port) = (host, port);
        _listener.Start();
        _ = AcceptAsync();
    }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Ends when everything stands still.</summary>
    public Task Still => _still.Task;

    /// <summary>What went through since counting began.</summary>
    public IReadOnlyList<string> Statements
    {
        get
        {
            lock (_gate)
                return [.. _statements];
        }
    }

    /// <summary>Lets so many statements through and holds the last one's answer.</summary>
    public void LetThrough(int statements)
    {
        lock (_gate)
        {
            _statements.Clear();
            (_left, _counting, _last, _still) = (statements, true, false, New());
        }
    }

    /// <summary>Lets all through again.</summary>
    public void Open()
    {
        lock (_gate)
            (_left, _counting, _last) = (int.MaxValue, false, false);
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Dispose();
        _stop.Dispose();
    }

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    private async Task AcceptAsync()
    {
        try
        {
            while (true)
                _ = ServeAsync(await _listener.AcceptTcpClientAsync(_stop.Token));
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException or SocketException)
        {
            // The test is over.
        }
    }

    private async Task ServeAsync(TcpClient client)
    {
        using (client)
        using (var server = new TcpClient())
        {
            try
            {
                await server.ConnectAsync(_host, _port, _stop.Token);
                // Either side gone: the other is closed too, and the server rolls back.
                await await Task.WhenAny(RequestsAsync(client.GetStream(), server.GetStream()), AnswersAsync(server.GetStream(), client.GetStream()));
            }
            catch (Exception e) when (e is IOException or SocketException or OperationCanceledException or ObjectDisposedException or EndOfStreamException)
            {
                // A killed process.
            }
        }
    }

    private async Task RequestsAsync(NetworkStream client, NetworkStream server)
    {
        var startUp = new byte[4];
        await client.ReadExactlyAsync(startUp, _stop.Token);
        var first = new byte[BinaryPrimitives.ReadInt32BigEndian(startUp) - 4];
        await client.ReadExactlyAsync(first, _stop.Token);
        await server.WriteAsync(startUp, _stop.Token);
        await server.WriteAsync(first, _stop.Token);
        var head = new byte[5];
        var sql = "";
        while (true)
        {
            await client.ReadExactlyAsync(head, _stop.Token);
            var body = new byte[BinaryPrimitives.ReadInt32BigEndian(head.AsSpan(1)) - 4];
            await client.ReadExactlyAsync(body, _stop.Token);
            if (head[0] is (byte)'P' or (byte)'Q')
                sql += Encoding.UTF8.GetString(body).Replace('\0', ' ') + ";";
            if (head[0] is (byte)'S' or (byte)'Q' or (byte)'c')
            {
                Count(head[0] == 'c' ? "end of COPY" : sql);
                sql = "";
            }

            await server.WriteAsync(head, _stop.Token);
            await server.WriteAsync(body, _stop.Token);
        }
    }

    private async Task AnswersAsync(NetworkStream server, NetworkStream client)
    {
        var buffer = new byte[1 << 16];
        while (await server.ReadAsync(buffer, _stop.Token) is > 0 and var read)
        {
            if (_last)
            {
                _still.TrySetResult();
                await WaitForCloseAsync(client);
            }

            await client.WriteAsync(buffer.AsMemory(0, read), _stop.Token);
        }
    }

    private void Count(string statement)
    {
        lock (_gate)
        {
            if (!_counting || NotCounted.Any(n => statement.Contains(n, StringComparison.Ordinal)))
                return;
            _statements.Add(statement);
            _last |= --_left == 0;
        }
    }

    // The process on the other side is killed, which closes its end.
    private async Task WaitForCloseAsync(NetworkStream client)
    {
        while (client.Socket is { } socket && !(socket.Poll(0, SelectMode.SelectRead) && socket.Available == 0))
            await Task.Delay(20, _stop.Token);
        throw new EndOfStreamException();
    }
}
