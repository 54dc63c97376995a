using TagService.Domain.Places;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.ReadPoints;

/// <summary>One read point.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Kind">How it looks at its place.</param>
/// <param name="LocationId">Id of the location it covers.</param>
/// <param name="ReaderName">What read events call the reader.</param>
/// <param name="Antenna">Number of the reader's antenna, without unit; absent for all that are no read point of their own.</param>
/// <param name="Aliases">Other names that read events use for it.</param>
/// <param name="EirpDbm">Power it radiates, in dBm EIRP.</param>
/// <param name="ReaderKind">Kind of reader.</param>
/// <param name="HeartbeatSeconds">Seconds within which a sign of life is expected.</param>
/// <param name="ReferenceTags">Tags known to be good that are fixed at the place.</param>
/// <param name="SweepHours">Length of one inferred sweep in hours; absent for kinds that infer none.</param>
/// <param name="Note">Your own remark.</param>
/// <param name="UpdatedAt">When it was last changed.</param>
public sealed record ReadPointResponse(
    string Id,
    string Name,
    ReadPointKind Kind,
    string LocationId,
    string? ReaderName,
    int? Antenna,
    IReadOnlyList<string> Aliases,
    double? EirpDbm,
    ReaderKind? ReaderKind,
    int? HeartbeatSeconds,
    IReadOnlyList<string> ReferenceTags,
    double? SweepHours,
    string? Note,
    DateTimeOffset UpdatedAt);

/// <summary>One page of read points in ordinal order of their ids. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The read points.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record ReadPointPageResponse(IReadOnlyList<ReadPointResponse> Items, string? NextAfter);
