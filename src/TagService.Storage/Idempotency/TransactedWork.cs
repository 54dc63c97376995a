using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace TagService.Storage.Idempotency;

/// <summary>Runs a piece of work in one transaction, together with the key the caller named it by.</summary>
public sealed class TransactedWork(TagServiceDbContext database, TimeProvider clock)
{
    /// <summary>Serialises requests under one key: the second waits here for the first to end, whichever way.</summary>
    internal const string LockKey = "SELECT pg_advisory_xact_lock(hashtextextended($1, 0))";

    /// <summary>
    /// Runs the work, or gives the answer it had when the same key was used before. A lost connection is tried again; where
    /// it is lost while committing without a key, nobody can know whether the work was kept, and the failure goes to the caller.
    /// </summary>
    /// <param name="key">The caller's key; null: every request counts.</param>
    /// <param name="work">Changes rows through the context it is given and saves them; null when it refuses.</param>
    /// <param name="cancellationToken">Gives up; nothing is kept then.</param>
    /// <exception cref="CommitUncertainException">The connection was lost while committing work without a key.</exception>
    public Task<WorkOutcome> RunAsync(
        IdempotencyKey? key, Func<TagServiceDbContext, CancellationToken, Task<StoredAnswer?>> work, CancellationToken cancellationToken)
    {
        var committing = false;
        return database.Database.CreateExecutionStrategy().ExecuteAsync(async ct =>
        {
            if (committing && key is null)
                throw new CommitUncertainException();
            database.ChangeTracker.Clear();
            await using var transaction = await database.Database.BeginTransactionAsync(ct);
            if (key is not null && await AnsweredBeforeAsync(transaction, key, ct) is { } before)
                return before;
            var answer = await work(database, ct);
            if (answer is null)
                return new WorkOutcome.Refused();
            if (key is not null)
            {
                database.Add(new IdempotentRequestRow
                {
                    Operation = key.Operation, Key = key.Key, ContentHash = key.ContentHash, Status = answer.Status, Body = answer.Body,
                    Location = answer.Location, RecordedAt = clock.GetUtcNow(),
                });
                await database.SaveChangesAsync(ct);
            }

            committing = true;
            await transaction.CommitAsync(ct);
            return new WorkOutcome.Done(answer, Before: false);
        }, cancellationToken);
    }

    private async Task<WorkOutcome?> AnsweredBeforeAsync(IDbContextTransaction transaction, IdempotencyKey key, CancellationToken cancellationToken)
    {
        var connection = (NpgsqlConnection)database.Database.GetDbConnection();
        await using (var command = new NpgsqlCommand(LockKey, connection, (NpgsqlTransaction)transaction.GetDbTransaction()))
        {
            command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = $"{key.Operation}\n{key.Key}" });
            await command.ExecuteNonQueryAsync(cancellationToken);
        }

        var row = await database.IdempotentRequests.AsNoTracking()
            .SingleOrDefaultAsync(r => r.Operation == key.Operation && r.Key == key.Key, cancellationToken);
        return row is null ? null
            : row.ContentHash == key.ContentHash ? new WorkOutcome.Done(new(row.Status, row.Body, row.Location), Before: true)
            : new WorkOutcome.KeyReused();
    }
}
