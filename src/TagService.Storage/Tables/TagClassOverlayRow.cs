using TagService.Domain.TagClasses;
using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>An own tag class, or what is laid over a built-in one.</summary>
public sealed class TagClassOverlayRow : IAudited
{
    /// <summary>Id of the class.</summary>
    public required string Id { get; init; }

    /// <summary>The overlay; its own <c>id</c> equals <see cref="Id"/>.</summary>
    public required TagClassOverlay Overlay { get; set; }

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.TagClass;

    string IAudited.AuditKey => Id;
}
