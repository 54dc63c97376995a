using TagService.Api.Features.Recommendations;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>One line of the answer to a batch of assets: what happened to one line, or at the very end the summary.</summary>
public sealed record AssetBatchLineResponse
{
    /// <summary>Number of the line answered, from 1; absent in the summary.</summary>
    public long? Line { get; init; }

    /// <summary>The register's key of the asset; absent in the summary.</summary>
    public string? AssetId { get; init; }

    /// <summary>What happened; absent in the summary.</summary>
    public AssetOutcome? Outcome { get; init; }

    /// <summary>What else to know, for example that the asset was retired and is in service again.</summary>
    public IReadOnlyList<NoticeResponse>? Notices { get; init; }

    /// <summary>The whole batch in numbers; the last line and only there.</summary>
    public AssetBatchSummaryResponse? Summary { get; init; }
}

/// <summary>A batch of assets in numbers of lines, without unit.</summary>
/// <param name="Lines">Lines answered, blank ones not counted.</param>
/// <param name="Created">New assets.</param>
/// <param name="Changed">Assets with another content than before.</param>
/// <param name="Unchanged">Assets that the mirror had like that.</param>
/// <param name="Refused">Lines that could not be read, each answered with its problem.</param>
/// <param name="RegisterFields">How many lines had which of the register's own fields at the top level; they were kept as attributes. The first 100 names.</param>
public sealed record AssetBatchSummaryResponse(
    long Lines, long Created, long Changed, long Unchanged, long Refused, IReadOnlyDictionary<string, long> RegisterFields);
