using TagService.Domain.Places;
using TagService.Domain.Recommendations;
using TagService.Storage.Changes;
using TagService.Storage.Places;

namespace TagService.Storage.Tables;

/// <summary>A reader, or one of its antennas, and the place it covers.</summary>
public sealed class ReadPointRow : IAudited
{
    private readonly List<ReadPointNameRow> _names = [];

    /// <summary>The caller's id.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people; need not be unique.</summary>
    public string Name { get; private set; } = "";

    /// <summary>Other names that read events use for it.</summary>
    public string[] Aliases { get; private set; } = [];

    /// <summary>How it looks at its place.</summary>
    public required ReadPointKind Kind { get; set; }

    /// <summary>The place it covers.</summary>
    public required string LocationId { get; set; }

    /// <summary>What read events call the reader.</summary>
    public string? ReaderName { get; set; }

    /// <summary>Number of the antenna; null: every antenna of the reader that is no read point of its own.</summary>
    public int? Antenna { get; set; }

    /// <summary>Kind of reader.</summary>
    public ReaderKind? ReaderKind { get; set; }

    /// <summary>Radiated power in dBm EIRP.</summary>
    public double? EirpDbm { get; set; }

    /// <summary>Seconds within which a sign of life is expected.</summary>
    public int? HeartbeatSeconds { get; set; }

    /// <summary>Length of an inferred sweep in hours; null for kinds that infer none.</summary>
    public double? SweepHours { get; set; }

    /// <summary>Identities of tags known to be good that are fixed at the place.</summary>
    public string[] ReferenceTags { get; set; } = [];

    /// <summary>Remark.</summary>
    public string? Note { get; set; }

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    /// <summary>What it is found by; to be loaded before <see cref="Rename"/>.</summary>
    public IReadOnlyList<ReadPointNameRow> Names => _names;

    string IAudited.AuditKind => AuditKinds.ReadPoint;

    string IAudited.AuditKey => Id;

    /// <summary>Sets name and aliases, and what the read point is found by.</summary>
    public void Rename(string name, IEnumerable<string> aliases)
    {
        (Name, Aliases) = (name, [.. aliases]);
        PlaceNames.Bring(_names, Name, Aliases, (folded, isAlias) => new() { ReadPointId = Id, Folded = folded, IsAlias = isAlias });
    }
}

/// <summary>One name under which a read point is found.</summary>
public sealed class ReadPointNameRow : PlaceNameRow
{
    /// <summary>The read point.</summary>
    public required string ReadPointId { get; init; }
}
