using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Locations;

/// <summary>One location.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Name for people.</param>
/// <param name="ParentId">Id of the location it lies in; absent at the top.</param>
/// <param name="Aliases">Names that registers and readers use for it.</param>
/// <param name="Setting">Surroundings of what stands there.</param>
/// <param name="Note">Your own remark.</param>
/// <param name="UpdatedAt">When it was last changed.</param>
public sealed record LocationResponse(
    string Id, string Name, string? ParentId, IReadOnlyList<string> Aliases, Setting? Setting, string? Note, DateTimeOffset UpdatedAt);

/// <summary>One page of locations in ordinal order of their ids. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The locations.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record LocationPageResponse(IReadOnlyList<LocationResponse> Items, string? NextAfter);
