using System.Text.Json;
using TagService.Storage.Changes;

namespace TagService.Api.Features.Changes;

/// <summary>One change of one item.</summary>
/// <param name="Id">Rising number of the change, without unit; gaps are possible.</param>
/// <param name="At">When it was written.</param>
/// <param name="Actor">Who did it: an access key or account by its name, unnamed-caller, or service for a background job.</param>
/// <param name="TraceId">Trace id of the request or job, 32 hexadecimal digits.</param>
/// <param name="Kind">Kind of the item.</param>
/// <param name="Key">Id of the item.</param>
/// <param name="Action">What happened to it.</param>
/// <param name="Before">The item before, by its members; absent when it was created.</param>
/// <param name="After">The item after, by its members; absent when it was deleted.</param>
public sealed record ChangeResponse(
    long Id,
    DateTimeOffset At,
    string Actor,
    string? TraceId,
    string Kind,
    string Key,
    ChangeAction Action,
    IReadOnlyDictionary<string, JsonElement>? Before,
    IReadOnlyDictionary<string, JsonElement>? After);

/// <summary>One page of changes, latest first. The Link header (RFC 8288) has the address of the next page, which is older.</summary>
/// <param name="Items">The changes.</param>
/// <param name="NextBefore">The value of before for the next page, without unit; absent on the last one.</param>
/// <param name="Kinds">All kinds of items whose changes are written down.</param>
public sealed record ChangePageResponse(IReadOnlyList<ChangeResponse> Items, long? NextBefore, IReadOnlyList<string> Kinds);
