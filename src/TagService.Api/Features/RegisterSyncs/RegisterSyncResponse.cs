using TagService.Api.Features.RegisterSources;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>One run over a register source.</summary>
public sealed record RegisterSyncResponse
{
    /// <summary>Number of the run, without unit.</summary>
    public required long Id { get; init; }

    /// <summary>Name of the source; kept when the source is deleted.</summary>
    public required string Source { get; init; }

    /// <summary>Where it is.</summary>
    public required RegisterSyncState State { get; init; }

    /// <summary>Who asked for it: a caller, or schedule.</summary>
    public required string RequestedBy { get; init; }

    /// <summary>When it was asked for.</summary>
    public required DateTimeOffset RequestedAt { get; init; }

    /// <summary>Everything is read, also where the source can tell what changed.</summary>
    public required bool FullPass { get; init; }

    /// <summary>Assets that are gone are retired however many they are.</summary>
    public required bool AcceptMissing { get; init; }

    /// <summary>When a worker first took it.</summary>
    public DateTimeOffset? StartedAt { get; init; }

    /// <summary>When it ended.</summary>
    public DateTimeOffset? EndedAt { get; init; }

    /// <summary>When it goes on, where it waits for something.</summary>
    public DateTimeOffset? TryAgainAt { get; init; }

    /// <summary>Seconds (s) from its start to its end, or until now.</summary>
    public double? Seconds { get; init; }

    /// <summary>Share of the announced rows that is read, 0 to 1, without unit; absent where the source announces none.</summary>
    public double? Progress { get; init; }

    /// <summary>Failures in a row without a page in between, without unit.</summary>
    public required int Attempts { get; init; }

    /// <summary>Rows read, unreadable ones not counted, without unit.</summary>
    public required long Rows { get; init; }

    /// <summary>Rows that the source announced, without unit.</summary>
    public long? Announced { get; init; }

    /// <summary>New assets, without unit.</summary>
    public required long Created { get; init; }

    /// <summary>Assets with another content than before, without unit.</summary>
    public required long Changed { get; init; }

    /// <summary>Rows that changed nothing, without unit.</summary>
    public required long Unchanged { get; init; }

    /// <summary>Rows refused, unreadable ones included, without unit; each is kept.</summary>
    public required long Refused { get; init; }

    /// <summary>Rows left out because the same row came before in the run, without unit.</summary>
    public required long Repeated { get; init; }

    /// <summary>Assets that were retired and are in service again, without unit.</summary>
    public required long BroughtBack { get; init; }

    /// <summary>Assets in service that the source listed before and lists no more, without unit; absent until a complete list was read.</summary>
    public long? Missing { get; init; }

    /// <summary>Missing assets that were retired, without unit.</summary>
    public required long Retired { get; init; }

    /// <summary>Why it waits, is held or failed, as a stable word.</summary>
    public string? ReasonCode { get; init; }

    /// <summary>The same for a person.</summary>
    public string? ReasonDetail { get; init; }

    /// <summary>What to know of the source and of this request.</summary>
    public required IReadOnlyList<SourceNoticeResponse> Notices { get; init; }

    /// <summary>Whether what was read is a complete list, so that an asset that is not on it has gone; absent until the source was read to its end.</summary>
    public bool? CompleteList { get; init; }

    /// <summary>Why the list may not be complete; then nothing is retired.</summary>
    public required IReadOnlyList<string> Doubts { get; init; }

    /// <summary>Values that were not understood or not recognised, the most frequent first.</summary>
    public required IReadOnlyList<ValueNoteResponse> Values { get; init; }

    /// <summary>Further such values, not listed because there are too many different ones, without unit.</summary>
    public required long ValuesNotListed { get; init; }
}

/// <summary>One page of runs, latest first. The Link header (RFC 8288) has the address of the next page, which is older.</summary>
/// <param name="Items">The runs.</param>
/// <param name="NextBefore">The value of before for the next page, without unit; absent on the last one.</param>
public sealed record RegisterSyncPageResponse(IReadOnlyList<RegisterSyncResponse> Items, long? NextBefore);

/// <summary>One row that a run refused.</summary>
/// <param name="Number">Counts the run's refused rows, from 1, without unit.</param>
/// <param name="Place">Where it stood.</param>
/// <param name="AssetId">The asset's key, where it could be read.</param>
/// <param name="Reason">Why, in words.</param>
/// <param name="Problems">Each value that was not understood; empty when the row as such is the problem.</param>
/// <param name="OriginalText">The row as the source wrote it, at most 4,000 characters.</param>
public sealed record RejectedRowResponse(
    long Number, string Place, string? AssetId, string Reason, IReadOnlyList<ValueNoteResponse> Problems, string OriginalText);

/// <summary>One page of refused rows in their order. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The rows.</param>
/// <param name="NextAfter">The value of after for the next page, without unit; absent on the last one.</param>
public sealed record RejectedRowPageResponse(IReadOnlyList<RejectedRowResponse> Items, long? NextAfter);
