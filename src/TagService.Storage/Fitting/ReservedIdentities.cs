using Microsoft.EntityFrameworkCore;
using TagService.Domain.Identity;
using TagService.Storage.Numbering;
using TagService.Storage.Tables;

namespace TagService.Storage.Fitting;

/// <summary>
/// One identity for the next tag of an asset: asked again, it is the same one until an attachment uses it, whoever asks and from
/// whichever process.
/// </summary>
public sealed class ReservedIdentities(TagServiceDbContext database, IdentityNumbers numbers, TimeProvider clock)
{
    // Each round passes over numbers that older tags have already.
    private const int Rounds = 5;

    /// <summary>What is reserved and not used; nothing is taken.</summary>
    /// <param name="assetIds">Assets.</param>
    /// <param name="additional">For a further tag instead of the asset's one.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<IReadOnlyDictionary<string, ReservedIdentityRow>> FindAsync(
        IReadOnlyCollection<string> assetIds, bool additional, CancellationToken cancellationToken)
    {
        string[] ids = [.. assetIds];
        var open = await database.ReservedIdentities.AsNoTracking()
            .Where(r => ids.Contains(r.AssetId) && r.IsAdditional == additional && r.AttachmentId == null)
            .Where(r => !database.Tags.Any(t => t.Identity == r.Identity && database.Attachments.Any(a => a.TagId == t.Id && !a.IsVoid)))
            .ToListAsync(cancellationToken);
        return open.ToDictionary(r => r.AssetId, StringComparer.Ordinal);
    }

    /// <summary>
    /// The same, and a new identity of the default numbering rule for each asset that has none. Numbers are committed as taken before
    /// the reservation is written: two callers at once may leave a gap in the numbers, never two identities for one tag.
    /// </summary>
    /// <param name="assetIds">Assets of the mirror.</param>
    /// <param name="additional">For a further tag instead of the asset's one.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<ReservationOutcome> ReserveAsync(IReadOnlyCollection<string> assetIds, bool additional, CancellationToken cancellationToken)
    {
        var found = await FindAsync(assetIds, additional, cancellationToken);
        string[] missing = [.. assetIds.Distinct(StringComparer.Ordinal).Where(id => !found.ContainsKey(id))];
        if (missing.Length == 0)
            return new(found, null);
        var (supply, refusal) = await TakeAsync(missing.Length, cancellationToken);
        if (supply.Count > 0)
            await WriteAsync(missing, additional, supply, cancellationToken);
        return new(await FindAsync(assetIds, additional, cancellationToken), refusal);
    }

    /// <summary>Who has an identity: the asset whose tag carries it now, or for whose tag it is reserved; null when it is free.</summary>
    /// <param name="identity">Canonical text.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<IdentityHolder?> HolderAsync(string identity, CancellationToken cancellationToken)
    {
        var attachment = await (from tag in database.Tags.AsNoTracking()
                                join row in database.Attachments.AsNoTracking() on tag.Id equals row.TagId
                                where tag.Identity == identity && row.EndReason == null
                                select new IdentityHolder(row.AssetId, row.Id)).FirstOrDefaultAsync(cancellationToken);
        return attachment ?? await database.ReservedIdentities.AsNoTracking()
            .Where(r => r.Identity == identity && r.AttachmentId == null)
            .Select(r => new IdentityHolder(r.AssetId, null))
            .FirstOrDefaultAsync(cancellationToken);
    }

    private async Task<(List<Supply> Supply, string? Refusal)> TakeAsync(int count, CancellationToken cancellationToken)
    {
        var supply = new List<Supply>(count);
        for (var round = 0; round < Rounds && supply.Count < count; round++)
        {
            switch (await numbers.TakeAsync(null, count - supply.Count, cancellationToken))
            {
                case NumberOutcome.Taken taken:
                    var encoded = taken.Encoded.ToDictionary(e => e.Content.Key.ToString(), StringComparer.Ordinal);
                    string[] texts = [.. encoded.Keys];
                    var inUse = (await database.Database.SqlQueryRaw<string>(ReservationSql.Taken, [texts]).ToListAsync(cancellationToken)).ToHashSet(StringComparer.Ordinal);
                    supply.AddRange(encoded.Where(e => !inUse.Contains(e.Key)).Select(e => new Supply(e.Key, e.Value, taken.RuleId)));
                    break;
                case NumberOutcome.NoRule none:
                    return (supply, none.Sentence);
                case NumberOutcome.Exhausted exhausted:
                    return (supply, exhausted.Sentence);
            }
        }

        return (supply, supply.Count == count ? null : "The default numbering rule hands out numbers that tags have already; raise its nextNumber above them.");
    }

    private Task WriteAsync(string[] assetIds, bool additional, List<Supply> supply, CancellationToken cancellationToken) =>
        database.Database.CreateExecutionStrategy().ExecuteAsync(async ct =>
        {
            database.ChangeTracker.Clear();
            await using var transaction = await database.Database.BeginTransactionAsync(ct);
            var held = await database.Database.SqlQueryRaw<string>(ReservationSql.LockAssets, [assetIds]).ToListAsync(ct);
            await SettleAsync(assetIds, ct);
            var found = await FindAsync(assetIds, additional, ct);
            // Somebody else was first where there is one now.
            foreach (var (assetId, next) in held.Where(id => !found.ContainsKey(id)).Zip(supply))
            {
                database.ReservedIdentities.Add(new()
                {
                    Identity = next.Identity, AssetId = assetId, IsAdditional = additional, EpcHex = next.Epc.Hex, NumberingRuleId = next.RuleId,
                    ReservedAt = clock.GetUtcNow(),
                });
            }

            await database.SaveChangesAsync(ct);
            await transaction.CommitAsync(ct);
        }, cancellationToken);

    // What has been used makes room for the next one.
    private async Task SettleAsync(string[] assetIds, CancellationToken cancellationToken)
    {
        var used = await database.Database.SqlQueryRaw<Used>(ReservationSql.NewlyUsed, [assetIds]).ToListAsync(cancellationToken);
        foreach (var (identity, attachmentId) in used)
            (await database.ReservedIdentities.SingleAsync(r => r.Identity == identity, cancellationToken)).AttachmentId = attachmentId;
        if (used.Count > 0)
            await database.SaveChangesAsync(cancellationToken);
    }

    private sealed record Supply(string Identity, EncodedEpc Epc, string RuleId);

    private sealed record Used(string Identity, Guid AttachmentId);
}

/// <summary>Who has an identity.</summary>
/// <param name="AssetId">The asset.</param>
/// <param name="AttachmentId">The open attachment; null where it is only reserved.</param>
public sealed record IdentityHolder(string AssetId, Guid? AttachmentId);
