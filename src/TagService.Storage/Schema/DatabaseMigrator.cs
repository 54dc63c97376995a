using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;

namespace TagService.Storage.Schema;

/// <summary>Brings the database up to this program's version. Called by the verb <c>migrate</c> or for the private database.</summary>
public sealed class DatabaseMigrator(NpgsqlDataSource dataSource, DbContextOptions<TagServiceDbContext> options)
{
    // Any number will do as long as it never changes: "TagServ" read as ASCII bytes.
    private const long LockKey = 0x54_61_67_53_65_72_76;

    /// <summary>Runs what is pending, one process at a time: others wait for the advisory lock and then find nothing to do.</summary>
    /// <returns>Ids of the migrations this call ran.</returns>
    public async Task<IReadOnlyList<string>> MigrateAsync(CancellationToken cancellationToken)
    {
        // The lock lives in its own session: if this process dies, the server drops session and lock.
        await using var session = await dataSource.OpenConnectionAsync(cancellationToken);
        await ExecuteAsync(session, $"SELECT pg_advisory_lock({LockKey})", cancellationToken);
        try
        {
            await using var context = new TagServiceDbContext(options);
            // Else the first look at an empty database is logged as a failed command.
            await context.GetService<IHistoryRepository>().CreateIfNotExistsAsync(cancellationToken);
            List<string> pending = [.. await context.Database.GetPendingMigrationsAsync(cancellationToken)];
            if (pending.Count > 0)
                await context.Database.MigrateAsync(cancellationToken);
            return pending;
        }
        finally
        {
            // Not cancelled with the caller: a pooled connection must not keep the lock.
            await ExecuteAsync(session, $"SELECT pg_advisory_unlock({LockKey})", CancellationToken.None);
        }
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 0 };
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
