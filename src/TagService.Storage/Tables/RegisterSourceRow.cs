using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>A register that assets are read from.</summary>
public sealed class RegisterSourceRow : IAudited
{
    /// <summary>The caller's name for it.</summary>
    public required string Name { get; init; }

    /// <summary>How it is read and mapped, as JSON; this project does not look into it. No secret in it.</summary>
    public required string Settings { get; set; }

    /// <summary>Version of <see cref="Settings"/>: another one makes the next run start anew.</summary>
    public required string SettingsHash { get; set; }

    /// <summary>Runs are made.</summary>
    public required bool IsEnabled { get; set; }

    /// <summary>Minutes between the starts of two runs; null: only when asked for.</summary>
    public int? EveryMinutes { get; set; }

    /// <summary>The operator's configuration holds it, so that it is not changed through the interface.</summary>
    public required bool IsFromConfiguration { get; set; }

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.RegisterSource;

    string IAudited.AuditKey => Name;
}
