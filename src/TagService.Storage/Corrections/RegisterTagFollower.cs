using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Npgsql;
using NpgsqlTypes;
using TagService.Domain.Attachments;
using TagService.Domain.Identity.Text;
using TagService.Storage.Attachments;
using TagService.Storage.Bulk;
using TagService.Storage.Recommendations;

namespace TagService.Storage.Corrections;

/// <summary>What following tag columns came to.</summary>
/// <param name="Started">Attachments that were started.</param>
/// <param name="Ended">Attachments that ended because the column named another tag.</param>
/// <param name="Conflicts">Tags that are open on another asset: nothing was changed.</param>
/// <param name="Refused">Others that the rules of attachments refuse.</param>
public sealed record FollowedTags(long Started, long Ended, long Conflicts, long Refused)
{
    /// <summary>Nothing yet.</summary>
    public static FollowedTags None { get; } = new(0, 0, 0, 0);

    /// <summary>Both together.</summary>
    public FollowedTags Plus(FollowedTags other) =>
        new(Started + other.Started, Ended + other.Ended, Conflicts + other.Conflicts, Refused + other.Refused);
}

/// <summary>
/// Records what a register that is believed says in its tag column: the tag it names is attached, the one it named before is no longer.
/// Through the rules of all attachments, some hundreds at a time, each time one transaction. A statement of the column is recorded once
/// only, whoever comes across it: the same statement has the same key.
/// </summary>
public sealed class RegisterTagFollower(NpgsqlDataSource dataSource, AttachmentBatchWriter writer, RecommendationContextSource contexts, TimeProvider clock)
{
    /// <summary>Why an attachment ends whose tag the register has replaced.</summary>
    public const string EndReason = "replaced-in-register";

    private const int AtATime = 500;

    /// <summary>Follows the columns of one source.</summary>
    /// <param name="source">Its name.</param>
    /// <param name="changedSince">Only assets whose content changed at or after this time; null: all.</param>
    /// <param name="cancellationToken">Ends behind a transaction.</param>
    public async Task<FollowedTags> FollowAsync(string source, DateTimeOffset? changedSince, CancellationToken cancellationToken)
    {
        var followed = FollowedTags.None;
        for (var after = ""; ;)
        {
            var named = await CandidatesAsync(source, after, changedSince, cancellationToken);
            if (named.Count == 0)
                return followed;
            after = named[^1].AssetId;
            var results = await writer.WriteAsync(await EntriesAsync(named, cancellationToken), createAssets: false, contexts.Snapshot.Find, cancellationToken);
            followed = results.Aggregate(followed, (sum, r) => sum.Plus(CountOf(r)));
        }
    }

    /// <summary>Works out the identities of columns of which none is kept: rows of an older program version, and those that are none.</summary>
    /// <returns>How many were found.</returns>
    public async Task<long> FillKeysAsync(CancellationToken cancellationToken)
    {
        var filled = 0L;
        for (var after = ""; ;)
        {
            await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
            var rows = new List<(string AssetId, string Tag)>();
            await using (var look = new NpgsqlCommand(FollowSql.WithoutKey, connection) { Parameters = { Of(after), Of(AssetBulkWriter.ChunkSize) } })
            {
                await using var reader = await look.ExecuteReaderAsync(cancellationToken);
                while (await reader.ReadAsync(cancellationToken))
                    rows.Add((reader.GetString(0), reader.GetString(1)));
            }

            if (rows.Count == 0)
                return filled;
            after = rows[^1].AssetId;
            var keyed = rows.Select(r => (r.AssetId, r.Tag, Key: RegisterTagKey.Of(r.Tag))).Where(r => r.Key is not null).ToArray();
            if (keyed.Length == 0)
                continue;
            await using var set = new NpgsqlCommand(FollowSql.SetKeys, connection)
            {
                Parameters =
                {
                    Of<string[]>([.. keyed.Select(k => k.AssetId)]), Of<string[]>([.. keyed.Select(k => k.Tag)]), Of<string[]>([.. keyed.Select(k => k.Key!)]),
                },
            };
            filled += await set.ExecuteNonQueryAsync(cancellationToken);
        }
    }

    private static FollowedTags CountOf(BatchResult result) => result switch
    {
        BatchResult.Taken { Recording: Recording.Started started } => new(1, started.Previous is null ? 0 : 1, 0, 0),
        BatchResult.Taken { Recording: Recording.Refused { Refusal: AttachmentRefusal.InTheWay { Other.IsOpen: true } } } => new(0, 0, 1, 0),
        BatchResult.Taken { Recording: Recording.Refused } => new(0, 0, 0, 1),
        _ => FollowedTags.None,
    };

    private async Task<List<Named>> CandidatesAsync(string source, string after, DateTimeOffset? changedSince, CancellationToken cancellationToken)
    {
        await using var command = dataSource.CreateCommand(FollowSql.Candidates);
        command.Parameters.Add(Of(source));
        command.Parameters.Add(Of(after));
        command.Parameters.Add(Of(AtATime));
        command.Parameters.Add(new NpgsqlParameter { Value = changedSince is { } since ? since.ToUniversalTime() : DBNull.Value, NpgsqlDbType = NpgsqlDbType.TimestampTz });
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        var found = new List<Named>();
        while (await reader.ReadAsync(cancellationToken))
        {
            found.Add(new(
                reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetFieldValue<DateTimeOffset>(3), reader.IsDBNull(4) ? null : RegisterTagKey.Of(reader.GetString(4)),
                reader.IsDBNull(5) ? null : reader.GetFieldValue<DateTimeOffset>(5)));
        }

        return found;
    }

    private async Task<IReadOnlyList<BatchEntry>> EntriesAsync(List<Named> named, CancellationToken cancellationToken)
    {
        var open = await OpenPairsAsync([.. named.Where(n => n.BeforeKey is not null && n.BeforeKey != n.Key)], cancellationToken);
        var now = clock.GetUtcNow();
        return [.. named.Select(n => EntryOf(n, open.TryGetValue(n.AssetId, out var before) ? before : null, now))];
    }

    private static BatchEntry EntryOf(Named named, Guid? before, DateTimeOffset now)
    {
        // Between the last the column said otherwise and the first it said so; that it was empty before says nothing of the tag.
        var latest = named.Since < now ? named.Since : now;
        var earliest = named.BeforeKey is null ? null : named.BeforeSince;
        var when = Moment.Between(earliest < latest ? earliest : null, latest);
        var attachment = new Attachment
        {
            Id = Guid.CreateVersion7(now), Tag = named.Key, AssetId = named.AssetId, Start = when, RecordedAt = now,
            // Found in the register, not seen being fitted: what failed earlier never came to be known.
            TakenOver = true,
        };
        return new(TagOf(named), new(LineKey(named), attachment, before is { } id ? new PreviousEnd(id, when, EndReason) : null));
    }

    private static TagSeen TagOf(Named named)
    {
        var digits = named.Tag.Trim();
        return digits.All(char.IsAsciiHexDigit) && IdentityText.Parse(digits) is IdentityRead read
            ? new(named.Key, digits.ToUpperInvariant(), read.Scheme?.Name, null)
            : new(named.Key, null, null, null);
    }

    // The same statement of the same column, whoever finds it.
    private static Guid LineKey(Named named)
    {
        var text = Encoding.UTF8.GetBytes($"{named.AssetId}\n{named.Key}\n");
        Span<byte> bytes = [.. text, 0, 0, 0, 0, 0, 0, 0, 0];
        BinaryPrimitives.WriteInt64BigEndian(bytes[text.Length..], named.Since.UtcTicks);
        return new(SHA256.HashData(bytes).AsSpan(0, 16));
    }

    private async Task<Dictionary<string, Guid>> OpenPairsAsync(IReadOnlyList<Named> pairs, CancellationToken cancellationToken)
    {
        var open = new Dictionary<string, Guid>(StringComparer.Ordinal);
        if (pairs.Count == 0)
            return open;
        await using var command = dataSource.CreateCommand(FollowSql.OpenPairs);
        command.Parameters.Add(Of<string[]>([.. pairs.Select(p => p.AssetId)]));
        command.Parameters.Add(Of<string[]>([.. pairs.Select(p => p.BeforeKey!)]));
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            open[reader.GetString(0)] = reader.GetGuid(1);
        return open;
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private sealed record Named(string AssetId, string Tag, string Key, DateTimeOffset Since, string? BeforeKey, DateTimeOffset? BeforeSince);
}
