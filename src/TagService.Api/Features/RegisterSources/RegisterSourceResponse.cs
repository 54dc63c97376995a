using TagService.Domain.Registers;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSources;

/// <summary>One register source.</summary>
/// <param name="Name">Its name; assets it feeds show it as their source.</param>
/// <param name="Http">A register that answers HTTP.</param>
/// <param name="Csv">Files of separated values.</param>
/// <param name="Spreadsheet">Spreadsheets.</param>
/// <param name="Mapping">Which column feeds which field.</param>
/// <param name="Enabled">Runs are made by the schedule.</param>
/// <param name="EveryMinutes">Minutes (min) between the requests of two runs; absent: only when asked for.</param>
/// <param name="TagAuthority">Who is believed when the tag column and the recorded attachments disagree.</param>
/// <param name="WhenMissing">What becomes of assets that a complete list names no more.</param>
/// <param name="MostMissingShare">Largest share of the listed assets, 0 to 1, that one run may retire by itself.</param>
/// <param name="FullPassEveryHours">Hours (h) after which everything is read.</param>
/// <param name="IsFromConfiguration">The operator's configuration holds it: it cannot be changed here.</param>
/// <param name="UpdatedAt">When its settings were last changed.</param>
/// <param name="State">What has come of it.</param>
public sealed record RegisterSourceResponse(
    string Name,
    HttpSourceRequest? Http,
    CsvSourceRequest? Csv,
    SpreadsheetSourceRequest? Spreadsheet,
    RegisterMappingRequest Mapping,
    bool Enabled,
    int? EveryMinutes,
    TagAuthority TagAuthority,
    WhenMissing WhenMissing,
    double MostMissingShare,
    int FullPassEveryHours,
    bool IsFromConfiguration,
    DateTimeOffset UpdatedAt,
    RegisterSourceStateResponse State);

/// <summary>What has come of a source.</summary>
/// <param name="AssetsListed">Assets of the mirror that the source lists, without unit.</param>
/// <param name="LastRun">Its latest run; absent before the first one.</param>
/// <param name="NextRunDue">When the schedule asks for the next run; in the past: it is due. Absent when the source is disabled, has no schedule or has a run that is not over.</param>
public sealed record RegisterSourceStateResponse(long AssetsListed, LastRunResponse? LastRun, DateTimeOffset? NextRunDue);

/// <summary>The latest run of a source.</summary>
/// <param name="Id">Number of the run, without unit; its address is /v1/register-syncs/{id}.</param>
/// <param name="State">Where it is.</param>
/// <param name="RequestedAt">When it was asked for.</param>
/// <param name="EndedAt">When it ended.</param>
/// <param name="Rows">Rows read, without unit.</param>
/// <param name="Refused">Rows refused, without unit.</param>
/// <param name="ReasonCode">Why it waits, is held or failed, as a stable word.</param>
/// <param name="ReasonDetail">The same for a person.</param>
public sealed record LastRunResponse(
    long Id, RegisterSyncState State, DateTimeOffset RequestedAt, DateTimeOffset? EndedAt, long Rows, long Refused, string? ReasonCode, string? ReasonDetail);

/// <summary>One page of register sources in ordinal order of their names. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The sources.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record RegisterSourcePageResponse(IReadOnlyList<RegisterSourceResponse> Items, string? NextAfter);
