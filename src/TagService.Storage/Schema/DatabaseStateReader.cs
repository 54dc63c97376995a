using System.Net.Sockets;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace TagService.Storage.Schema;

/// <summary>Looks at the database: reachable, empty, older, newer or current.</summary>
public sealed class DatabaseStateReader(NpgsqlDataSource dataSource, DbContextOptions<TagServiceDbContext> options)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);
    private readonly Lazy<IReadOnlyList<string>> _known = new(() =>
    {
        using var context = new TagServiceDbContext(options);
        return [.. context.Database.GetMigrations()];
    });

    /// <summary>One look; answers within about five seconds and throws only on cancellation.</summary>
    public async Task<DatabaseState> ReadAsync(CancellationToken cancellationToken)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        limit.CancelAfter(Patience);
        try
        {
            await using var connection = await dataSource.OpenConnectionAsync(limit.Token);
            if (connection.PostgreSqlVersion.Major < StorageHost.OldestServerMajor)
                return new(
                    DatabaseCondition.UnsupportedServer,
                    $"The server is PostgreSQL {connection.PostgreSqlVersion}; {StorageHost.OldestServerMajor} is the oldest supported.");
            return Compare(await AppliedAsync(connection, limit.Token));
        }
        catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
        {
            return new(DatabaseCondition.Unreachable, $"The database did not answer within {Patience.TotalSeconds:0} s.");
        }
        catch (Exception e) when (e is NpgsqlException or SocketException or TimeoutException or IOException)
        {
            var reason = e is PostgresException p ? p.MessageText : (e.InnerException ?? e).Message;
            return new(DatabaseCondition.Unreachable, $"The database cannot be used: {reason}");
        }
    }

    private DatabaseState Compare(IReadOnlyCollection<string> applied)
    {
        if (applied.Count == 0)
            return new(DatabaseCondition.Empty, "The database has no TagService tables yet.");
        var pending = _known.Value.Except(applied).ToList();
        if (pending.Count > 0)
            return new(DatabaseCondition.Older, $"{pending.Count} migration(s) have not run yet: {string.Join(", ", pending)}.");
        var unknown = applied.Except(_known.Value).Count();
        return unknown > 0
            ? new(DatabaseCondition.Newer, $"A newer program has run {unknown} further migration(s) on this database.")
            : new(DatabaseCondition.Current, "The database is up to date.");
    }

    private static async Task<IReadOnlyCollection<string>> AppliedAsync(NpgsqlConnection connection, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand($"SELECT migration_id FROM {StorageHost.HistoryTable}", connection);
        var applied = new List<string>();
        try
        {
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            while (await reader.ReadAsync(cancellationToken))
                applied.Add(reader.GetString(0));
        }
        catch (PostgresException e) when (e.SqlState == PostgresErrorCodes.UndefinedTable)
        {
            // No history table: nothing has run here.
        }

        return applied;
    }
}
