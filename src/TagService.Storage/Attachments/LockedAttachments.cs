using Microsoft.EntityFrameworkCore;
using Npgsql;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Domain.TagClasses;
using TagService.Storage.Measurements;
using TagService.Storage.Tables;

namespace TagService.Storage.Attachments;

/// <summary>
/// Whole histories of some tags, held against other writers until the transaction ends, and a ledger over them. What the ledger
/// changed is written by <see cref="SaveAsync"/>.
/// </summary>
public sealed class LockedAttachments
{
    private readonly TagServiceDbContext _database;
    private readonly Dictionary<long, TagRow> _tags;
    private readonly Dictionary<Guid, AttachmentRow> _rows;

    private LockedAttachments(TagServiceDbContext database, IEnumerable<TagRow> tags, IReadOnlyCollection<AttachmentRow> rows)
    {
        _database = database;
        _tags = tags.ToDictionary(t => t.Id);
        _rows = rows.ToDictionary(r => r.Id);
        Ledger = new(rows.Select(r => r.ToAttachment(_tags[r.TagId].Identity)));
    }

    /// <summary>The histories.</summary>
    public AttachmentLedger Ledger { get; }

    /// <summary>Histories of a tag, and of the tags open on an asset.</summary>
    /// <param name="database">A context within a transaction.</param>
    /// <param name="tag">The tag; made if it is new.</param>
    /// <param name="assetId">The asset whose open attachments are wanted too, and held; null: none.</param>
    /// <param name="now">The time of recording.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<LockedAttachments> OfTagAsync(
        TagServiceDbContext database, TagSeen tag, string? assetId, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = (NpgsqlConnection)database.Database.GetDbConnection();
        var ids = await TagLocks.TakeAsync(connection, [tag], assetId is null ? [] : [assetId], now, cancellationToken);
        return await ReadAsync(database, [.. ids.Values], cancellationToken);
    }

    /// <summary>The history that has an attachment; null when no attachment has the id.</summary>
    /// <param name="database">A context within a transaction.</param>
    /// <param name="id">Id of the attachment.</param>
    /// <param name="now">The time of recording.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<LockedAttachments?> OfAttachmentAsync(
        TagServiceDbContext database, Guid id, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var identity = await (from a in database.Attachments where a.Id == id join t in database.Tags on a.TagId equals t.Id select t.Identity)
            .FirstOrDefaultAsync(cancellationToken);
        return identity is null ? null : await OfTagAsync(database, new(identity, null, null, null), null, now, cancellationToken);
    }

    /// <summary>An attachment as it is shown.</summary>
    /// <param name="id">Id of an attachment of the ledger, saved.</param>
    public StoredAttachment Show(Guid id)
    {
        var row = _rows[id];
        return new(Ledger.Find(id)!, _tags[row.TagId], row.Version);
    }

    /// <summary>Writes what the ledger changed, and what is learnt from it of ranges.</summary>
    /// <param name="again">An attachment whose check was sent once more; null: none.</param>
    /// <param name="findClass">Finds a tag class.</param>
    /// <param name="now">The time of recording.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>What each check is worth, by attachment; those that were not looked at are missing.</returns>
    public async Task<IReadOnlyDictionary<Guid, CheckFinding>> SaveAsync(
        Guid? again, Func<string, TagClass?> findClass, DateTimeOffset now, CancellationToken cancellationToken)
    {
        // Ends before starts: one tag has one open row at most, and the database looks after every row.
        foreach (var changed in Ledger.Changed.OrderBy(a => Ledger.Stored(a.Id) is null))
        {
            if (_rows.TryGetValue(changed.Id, out var row))
            {
                row.Apply(changed);
                await _database.SaveChangesAsync(cancellationToken);
            }
            else
            {
                _rows[changed.Id] = row = changed.ToRow(_tags.Values.First(t => t.Identity == changed.Tag).Id);
                _database.Add(row);
            }
        }

        await _database.SaveChangesAsync(cancellationToken);
        return await AttachmentFindings.WriteAsync((NpgsqlConnection)_database.Database.GetDbConnection(), Ledger, again, findClass, now, cancellationToken);
    }

    private static async Task<LockedAttachments> ReadAsync(TagServiceDbContext database, long[] tagIds, CancellationToken cancellationToken) => new(
        database,
        await database.Tags.AsNoTracking().Where(t => tagIds.Contains(t.Id)).ToListAsync(cancellationToken),
        await database.Attachments.Where(a => tagIds.Contains(a.TagId)).ToListAsync(cancellationToken));
}
