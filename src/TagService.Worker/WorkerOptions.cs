namespace TagService.Worker;

/// <summary>Settings of the background jobs.</summary>
public sealed record WorkerOptions
{
    /// <summary>Time between two looks for work.</summary>
    public TimeSpan Poll { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Assets claimed at a time: the most work that is lost when the process dies.</summary>
    public int BatchSize { get; init; } = 200;
}
