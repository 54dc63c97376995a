using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TagService.Api.Features.Recommendations;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Idempotency;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Assets;

/// <summary>Changes one asset in one transaction under the conditions of RFC 9110: its row, its change in the history, its mark for the worker.</summary>
internal static class AssetChange
{
    private const int Attempts = 3;

    // The answer is written by us; without an Idempotency-Key nobody reads this one.
    private static readonly StoredAnswer Kept = new(StatusCodes.Status200OK, "");

    /// <summary>Holds the asset, asks what it should become, and makes it so.</summary>
    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="key">Id of the asset.</param>
    /// <param name="draft">From the asset as it is, null if there is none, to what it should be; called once an attempt.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    public static async Task<Results<Ok<AssetResponse>, Created<AssetResponse>, ApiProblem>> RunAsync(
        HttpContext context, TransactedWork work, TimeProvider clock, string key, Func<AssetRow?, AssetDraft> draft, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                var (stored, created, notices, problem) = default(Outcome);
                await work.RunAsync(
                    null,
                    async (database, ct) =>
                    {
                        (stored, created, notices, problem) = await ChangeAsync(database, context.Request, key, draft, clock, ct);
                        return stored is null ? null : Kept;
                    },
                    cancellationToken);
                if (stored is null)
                    return problem!;
                context.Response.GetTypedHeaders().ETag = AssetTags.Of(stored);
                var response = stored.ToResponse() with { Notices = notices };
                return created ? TypedResults.Created($"/v1/assets/{Uri.EscapeDataString(key)}", response) : TypedResults.Ok(response);
            }
            catch (DbUpdateException e) when (attempt < Attempts && e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
            {
                // Somebody else created it between our look and our insert: the next look finds it and waits for it.
            }
        }
    }

    private static async Task<Outcome> ChangeAsync(
        TagServiceDbContext database, HttpRequest request, string key, Func<AssetRow?, AssetDraft> draft, TimeProvider clock, CancellationToken cancellationToken)
    {
        var row = await database.HoldAssetAsync(key, cancellationToken);
        var recommendation = row is null ? null : await database.AssetRecommendations.AsNoTracking().SingleOrDefaultAsync(r => r.AssetId == key, cancellationToken);
        if (Preconditions.Refusal(request, row is null ? null : AssetTags.ForPrecondition(request, new(row, recommendation))) is { } refused)
            return new(null, false, null, refused);
        var (content, ownFields, problem) = draft(row);
        if (content is null)
            return new(null, false, null, problem);
        var (wasRetired, created) = (row?.RetiredAt, row is null);
        row = await WriteAsync(database, row, content, StoredTime.Now(clock), cancellationToken);
        return new(new(row, recommendation), created, [.. ownFields, .. AssetMapping.BroughtBack(wasRetired, row.RetiredAt)], null);
    }

    private static async Task<AssetRow> WriteAsync(TagServiceDbContext database, AssetRow? row, AssetToLoad content, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var hash = AssetContent.HashOf(content, AssetSources.Push);
        var isNew = row is null;
        if (row is null)
        {
            row = new() { AssetId = content.Record.AssetId!, Record = content.Record, Source = AssetSources.Push, FirstSeenAt = now, UpdatedAt = now };
            database.Add(row);
        }
        else if (AssetContent.HashOf(row.ToContent(), row.Source).SequenceEqual(hash) && (content.Retired?.At is not { } at || at == row.RetiredAt))
        {
            return row;
        }

        var key = EngineInput.KeyOf(content.Record);
        var due = isNew || row.InputKey != key;
        row.Record = content.Record;
        row.LocationName = content.LocationName;
        row.RegisterTag = content.RegisterTag;
        row.RegisterTagKey = RegisterTagKey.Of(content.RegisterTag);
        row.Source = AssetSources.Push;
        row.RetiredAt = content.Retired is { } retired ? retired.At ?? row.RetiredAt ?? now : null;
        row.RetiredReason = content.Retired?.Reason;
        row.UpdatedAt = now;
        row.ContentHash = hash;
        row.InputKey = key;
        await database.SaveChangesAsync(cancellationToken);
        if (due)
            await database.MarkDueAsync(row.AssetId, cancellationToken);
        return row;
    }

    private readonly record struct Outcome(StoredAsset? Stored, bool Created, IReadOnlyList<NoticeResponse>? Notices, ApiProblem? Problem);
}
