using TagService.Domain.Recommendations;
using TagService.Storage.Changes;
using TagService.Storage.Places;

namespace TagService.Storage.Tables;

/// <summary>A place, and the one it lies in.</summary>
public sealed class LocationRow : IAudited
{
    private readonly List<LocationNameRow> _names = [];

    /// <summary>The caller's id.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people; need not be unique.</summary>
    public string Name { get; private set; } = "";

    /// <summary>Names that registers and readers use for it.</summary>
    public string[] Aliases { get; private set; } = [];

    /// <summary>The place it lies in; null at the top.</summary>
    public string? ParentId { get; set; }

    /// <summary>Surroundings of what stands there.</summary>
    public Setting? Setting { get; set; }

    /// <summary>Remark.</summary>
    public string? Note { get; set; }

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    /// <summary>What it is found by; to be loaded before <see cref="Rename"/>.</summary>
    public IReadOnlyList<LocationNameRow> Names => _names;

    string IAudited.AuditKind => AuditKinds.Location;

    string IAudited.AuditKey => Id;

    /// <summary>Sets name and aliases, and what the place is found by.</summary>
    public void Rename(string name, IEnumerable<string> aliases)
    {
        (Name, Aliases) = (name, [.. aliases]);
        PlaceNames.Bring(_names, Name, Aliases, (folded, isAlias) => new() { LocationId = Id, Folded = folded, IsAlias = isAlias });
    }
}

/// <summary>One name under which a location is found.</summary>
public sealed class LocationNameRow : PlaceNameRow
{
    /// <summary>The location.</summary>
    public required string LocationId { get; init; }
}
