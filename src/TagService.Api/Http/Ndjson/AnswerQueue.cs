using System.IO.Pipelines;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Ndjson;

/// <summary>
/// Texts on their way to a caller, in order: a few in memory, and in a file as many as <see cref="BatchSpooling"/> allows once the caller
/// reads nothing. Whoever adds waits for a caller who reads slowly, but not for one who does not read.
/// </summary>
internal sealed class AnswerQueue(PipeWriter output, BatchSpooling limits, TimeProvider time) : IDisposable
{
    private const int TextsInMemory = 4;

    // What is written at once, to the end of a line: the caller is seen to read at least as often.
    private const int LeastSliceBytes = 1 << 16;

    private readonly Lock _lock = new();
    private readonly Queue<Entry> _entries = new();
    private readonly SemaphoreSlim _filled = new(0);
    private readonly SemaphoreSlim _places = new(TextsInMemory);
    private readonly AnswerSpool _spool = new(limits);
    private long _progressed = time.GetTimestamp();

    /// <summary>How long the caller has read nothing of what waits for it.</summary>
    public TimeSpan Unread => time.GetElapsedTime(Volatile.Read(ref _progressed));

    /// <summary>Adds a text and disposes of it; false when there is no room and the caller does not read.</summary>
    public async ValueTask<bool> TryAddAsync(JsonBytes text, CancellationToken cancellationToken)
    {
        while (true)
        {
            if (await _places.WaitAsync(Left(limits.Patience), cancellationToken))
            {
                Enqueue(new(text, default));
                return true;
            }

            if (_spool.TryPut(text.Written.Span) is { } place)
            {
                text.Dispose();
                Enqueue(new(null, place));
                return true;
            }

            if (Unread >= limits.GiveUp)
            {
                text.Dispose();
                return false;
            }

            // A caller who begins to read makes room.
            await Task.Delay(TimeSpan.FromMilliseconds(100), time, cancellationToken);
        }
    }

    /// <summary>Adds the last text, for which there is always room.</summary>
    public void Complete(JsonBytes? last)
    {
        if (last is not null)
            Enqueue(new(last, default) { HasNoPlace = true });
        Enqueue(default);
    }

    /// <summary>Sends what is added until it is complete.</summary>
    public async Task SendAsync(CancellationToken cancellationToken)
    {
        while (true)
        {
            await _filled.WaitAsync(cancellationToken);
            Entry entry;
            lock (_lock)
                entry = _entries.Dequeue();
            if (entry.IsEnd)
                return;
            using (var text = entry.Text ?? Take(entry.Place))
                await SendAsync(text.Written, cancellationToken);
            if (entry is { Text: not null, HasNoPlace: false })
                _places.Release();
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        lock (_lock)
        {
            foreach (var entry in _entries)
                entry.Text?.Dispose();
            _entries.Clear();
        }

        _spool.Dispose();
        _filled.Dispose();
        _places.Dispose();
    }

    private async Task SendAsync(ReadOnlyMemory<byte> text, CancellationToken cancellationToken)
    {
        // What was not there to be read was not left unread.
        Volatile.Write(ref _progressed, time.GetTimestamp());
        while (text.Length > 0)
        {
            var length = SliceOf(text.Span);
            await output.WriteAsync(text[..length], cancellationToken);
            text = text[length..];
            Volatile.Write(ref _progressed, time.GetTimestamp());
        }
    }

    private static int SliceOf(ReadOnlySpan<byte> text)
    {
        var end = text.Length <= LeastSliceBytes ? -1 : text[LeastSliceBytes..].IndexOf((byte)'\n');
        return end < 0 ? text.Length : LeastSliceBytes + end + 1;
    }

    private JsonBytes Take(AnswerSpool.Place place)
    {
        var text = new JsonBytes();
        _spool.Take(place, text);
        return text;
    }

    private TimeSpan Left(TimeSpan limit) => Unread is var unread && unread < limit ? limit - unread : TimeSpan.Zero;

    private void Enqueue(Entry entry)
    {
        lock (_lock)
            _entries.Enqueue(entry);
        _filled.Release();
    }

    private readonly record struct Entry(JsonBytes? Text, AnswerSpool.Place Place)
    {
        public bool HasNoPlace { get; init; }

        public bool IsEnd => Text is null && Place.Length == 0;
    }
}
