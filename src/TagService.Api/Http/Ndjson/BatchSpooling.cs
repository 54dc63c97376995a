namespace TagService.Api.Http.Ndjson;

/// <summary>
/// What batches of this process may keep for callers that send on without reading: many HTTP/1.1 clients read nothing before they have
/// sent everything. One for the process, so that many such callers together cannot fill the disk.
/// </summary>
/// <param name="mostBytes">Bytes of temporary files, all batches together, as they are stored: packed.</param>
public sealed class BatchSpooling(long mostBytes)
{
    /// <summary>The usual limit in MB.</summary>
    public const int UsualMegabytes = 2048;

    private long _taken;

    /// <summary>How long a caller may read nothing before answers are put into a file.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>How long a caller may read nothing before answers that find no room are given up.</summary>
    public TimeSpan GiveUp { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long a caller who has sent everything may read nothing before the connection is closed.</summary>
    public TimeSpan Abandon { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>Bytes of temporary files that are taken now.</summary>
    public long Taken => Interlocked.Read(ref _taken);

    /// <summary>Takes room, if there is as much.</summary>
    public bool TryTake(long bytes)
    {
        if (Interlocked.Add(ref _taken, bytes) <= mostBytes)
            return true;
        GiveBack(bytes);
        return false;
    }

    /// <summary>Gives room back.</summary>
    public void GiveBack(long bytes) => Interlocked.Add(ref _taken, -bytes);
}
