namespace TagService.Hosting;

/// <summary>What a process does.</summary>
[Flags]
public enum Roles
{
    /// <summary>Nothing; not a valid setting.</summary>
    None = 0,

    /// <summary>Answers HTTP.</summary>
    Api = 1,

    /// <summary>Runs the background jobs.</summary>
    Worker = 2,
}
