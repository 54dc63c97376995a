using System.Globalization;

namespace TagService.Intake.Registers.Http;

/// <summary>The body of an answer within its limits: bytes after decompression, pauses, and waiting altogether. Turns what goes wrong into a named fault.</summary>
internal sealed class BoundedBody(Stream inner, long mostBytes, TimeSpan mostPause, TimeSpan mostWaiting, TimeProvider clock) : IAsyncDisposable
{
    private long _bytes;
    private TimeSpan _waited;

    /// <summary>Reads some bytes; 0 at the end.</summary>
    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken)
    {
        var left = mostWaiting - _waited;
        if (left <= TimeSpan.Zero)
            throw new RegisterReadException(RegisterFault.TimedOut, $"A page took longer than {Seconds(mostWaiting)} s.");
        using var limit = new CancellationTokenSource(left < mostPause ? left : mostPause, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancellationToken);
        var start = clock.GetTimestamp();
        int read;
        try
        {
            read = await inner.ReadAsync(buffer, either.Token);
        }
        catch (OperationCanceledException e) when (!cancellationToken.IsCancellationRequested)
        {
            throw new RegisterReadException(RegisterFault.TimedOut, $"The answer stopped coming for {Seconds(mostPause)} s, or a page took longer than {Seconds(mostWaiting)} s.", e);
        }
        catch (Exception e) when (e is IOException or HttpRequestException)
        {
            throw new RegisterReadException(RegisterFault.Truncated, "The answer broke off before its end.", e);
        }
        catch (InvalidDataException e)
        {
            throw new RegisterReadException(RegisterFault.Malformed, "The answer is not compressed the way it says.", e);
        }

        _waited += clock.GetElapsedTime(start);
        _bytes += read;
        return _bytes <= mostBytes
            ? read
            : throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"A page is larger than {mostBytes} bytes."));
    }

    /// <inheritdoc />
    public ValueTask DisposeAsync() => inner.DisposeAsync();

    private static string Seconds(TimeSpan time) => time.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);
}
