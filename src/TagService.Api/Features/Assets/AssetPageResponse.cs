namespace TagService.Api.Features.Assets;

/// <summary>One page of assets in ordinal order of their ids. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The assets.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record AssetPageResponse(IReadOnlyList<AssetResponse> Items, string? NextAfter);
