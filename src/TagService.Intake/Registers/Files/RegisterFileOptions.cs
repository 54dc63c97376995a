namespace TagService.Intake.Registers.Files;

/// <summary>What the operator allows of files; configuration section <c>Registers:Files</c>.</summary>
public sealed class RegisterFileOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string Section = "Registers:Files";

    /// <summary>Folders by name. A source names one of them, never a path.</summary>
    public Dictionary<string, string> Folders { get; } = new(StringComparer.Ordinal);

    /// <summary>A file counts as written when it has not changed for this long; 5 s.</summary>
    public TimeSpan SettleTime { get; set; } = TimeSpan.FromSeconds(5);

    /// <summary>Longest wait for a file that is still being written; 10 min.</summary>
    public TimeSpan MostSettleWait { get; set; } = TimeSpan.FromMinutes(10);
}
