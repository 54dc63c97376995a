using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.Locations;
using TagService.Api.Features.TagClasses;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Domain.Places;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.ReadPoints;

/// <summary>A read point, whole: a reader or one of its antennas, and the place it covers.</summary>
public sealed record ReadPointRequest
{
    /// <summary>Id of the read point, if sent the same as in the path.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Id { get; init; }

    /// <summary>Name for people; other read points may have the same.</summary>
    [MinLength(1), MaxLength(LocationProblems.MaxNameLength), RegularExpression(TextRules.OneLine)]
    public required string Name { get; init; }

    /// <summary>How it looks at its place: only area and cabinet read points can miss a tag by themselves; a passage is evidence of presence, never of absence.</summary>
    public required ReadPointKind Kind { get; init; }

    /// <summary>Id of the location it covers.</summary>
    [MaxLength(ItemId.MaxLength)]
    public required string LocationId { get; init; }

    /// <summary>What read events call the reader, letter by letter; together with antenna it means one read point.</summary>
    [MinLength(1), MaxLength(LocationProblems.MaxNameLength), RegularExpression(TextRules.OneLine)]
    public string? ReaderName { get; init; }

    /// <summary>Number of the reader's antenna, without unit; absent for all antennas of the reader that are no read point of their own.</summary>
    [Range(1, 65_535)]
    public int? Antenna { get; init; }

    /// <summary>Other names that read events use for it, of 1 to 200 characters. An alias means one read point only; case and spacing do not count.</summary>
    [MaxLength(LocationProblems.MaxAliases)]
    public IReadOnlyList<string>? Aliases { get; init; }

    /// <summary>Power it radiates, in dBm EIRP. The local regulator's limit applies, and people's exposure limits near the antenna.</summary>
    [Range(-30, 60)]
    public double? EirpDbm { get; init; }

    /// <summary>Kind of reader.</summary>
    public ReaderKind? ReaderKind { get; init; }

    /// <summary>Seconds within which a sign of life is expected: a heartbeat, a reference tag or any read.</summary>
    [Range(1, 604_800)]
    public int? HeartbeatSeconds { get; init; }

    /// <summary>Tags known to be good that are fixed at the place, by their identities: while they answer, the reader lives.</summary>
    [MaxLength(ReferenceTagText.MaxCount)]
    public IReadOnlyList<string>? ReferenceTags { get; init; }

    /// <summary>Length of one inferred sweep in hours, kinds area and cabinet only; 24 if absent.</summary>
    [Range(0.25, 744)]
    public double? SweepHours { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(2000), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}
