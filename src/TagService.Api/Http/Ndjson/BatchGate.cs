namespace TagService.Api.Http.Ndjson;

/// <summary>
/// How many chunks all batches of this process answer at once: every core while nobody else asks, every core but one
/// (at least one) as long as single requests are being answered, so that they are served beside a batch.
/// </summary>
internal static class BatchGate
{
    private static readonly SemaphoreSlim Always = new(Math.Max(1, Environment.ProcessorCount - 1));
    private static readonly SemaphoreSlim WhenAlone = new(1);
    private static int _singles;

    /// <summary>A single request is being answered until the returned mark is disposed of.</summary>
    public static IDisposable Single()
    {
        Interlocked.Increment(ref _singles);
        return new Mark(static () => Interlocked.Decrement(ref _singles));
    }

    /// <summary>Waits for a place; dispose of the returned mark to leave it.</summary>
    public static async ValueTask<IDisposable> EnterAsync(CancellationToken cancellationToken)
    {
        if (Volatile.Read(ref _singles) == 0 && WhenAlone.Wait(0, CancellationToken.None))
            return new Mark(static () => WhenAlone.Release());
        await Always.WaitAsync(cancellationToken);
        return new Mark(static () => Always.Release());
    }

    private sealed class Mark(Action leave) : IDisposable
    {
        private Action? _leave = leave;

        public void Dispose() => Interlocked.Exchange(ref _leave, null)?.Invoke();
    }
}
