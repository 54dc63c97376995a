using System.Text.Json;
using TagService.Storage.Changes;

namespace TagService.Api.Features.Assets;

/// <summary>One page of an asset's history, latest first. The Link header (RFC 8288) has the address of the next page, which is older.</summary>
/// <param name="Items">What happened.</param>
/// <param name="NextBefore">The value of before for the next page, without unit; absent on the last one.</param>
public sealed record AssetHistoryPageResponse(IReadOnlyList<AssetHistoryEntryResponse> Items, long? NextBefore);

/// <summary>One change of an asset.</summary>
/// <param name="Id">Rising number of the change over all items, without unit; gaps are possible.</param>
/// <param name="At">When it was written.</param>
/// <param name="By">Who did it: an access key or account by its name, unnamed-caller, or service for a background job.</param>
/// <param name="Source">The register source the asset came from then, push, demo or unknown.</param>
/// <param name="Action">What happened.</param>
/// <param name="TraceId">Trace id of the request or job, 32 hexadecimal digits.</param>
/// <param name="Changes">Which fields, from what to what.</param>
public sealed record AssetHistoryEntryResponse(
    long Id, DateTimeOffset At, string By, string? Source, ChangeAction Action, string? TraceId, IReadOnlyList<FieldChangeResponse> Changes);

/// <summary>One field of an asset that changed.</summary>
/// <param name="Pointer">JSON pointer of the field in the form in which PUT takes the asset, for example /surface/material; source besides.</param>
/// <param name="From">Its value before; absent when it had none.</param>
/// <param name="To">Its value after; absent when it has none.</param>
public sealed record FieldChangeResponse(string Pointer, JsonElement? From, JsonElement? To);
