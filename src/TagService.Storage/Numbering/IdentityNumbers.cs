using Npgsql;
using NpgsqlTypes;
using TagService.Domain.Identity.Schemes;
using TagService.Domain.Numbering;

namespace TagService.Storage.Numbering;

/// <summary>
/// Hands out the numbers of new identities. A number is committed as taken before anybody sees it, so that none is ever given
/// twice: not to two at once, not after a restart, not after a crash in between. What is taken and then not used is a gap; gaps
/// are harmless, repeats are not.
/// </summary>
public sealed class IdentityNumbers(NpgsqlDataSource dataSource)
{
    /// <summary>Most numbers taken at once.</summary>
    public const int MaxCount = 1_000_000;

    // A lost connection leaves open whether numbers were taken; taking others is safe and costs at most a gap.
    private const int Attempts = 3;

    // One statement looks, counts and says what it took; another that waited for the row counts on from there.
    private const string TakeSql =
        """
        UPDATE numbering_rules AS r
        SET next_number = r.next_number + $1, handed_out_through = r.next_number + $1 - 1
        WHERE (r.id = $2 OR ($2 IS NULL AND r.is_default)) AND r.next_number + $1 - 1 <= r.last_number
        RETURNING r.id, r.scheme, r.company_prefix, r.filter, r.class_reference, r.leading, r.digits, r.next_number - $1
        """;

    // A server set not to wait for its disk would forget the last numbers in a crash and give them again.
    private const string DurableSql =
        "SELECT set_config('synchronous_commit', 'on', true) WHERE current_setting('synchronous_commit') IN ('off', 'local')";

    private const string LeftSql =
        "SELECT id, greatest(last_number - next_number + 1, 0) FROM numbering_rules WHERE id = $1 OR ($1 IS NULL AND is_default)";

    /// <summary>Takes consecutive numbers, in a transaction of its own that has been committed when they are returned.</summary>
    /// <param name="ruleId">The rule; null for the default one.</param>
    /// <param name="count">How many, 1 to <see cref="MaxCount"/>.</param>
    /// <param name="cancellationToken">Gives up; numbers may then have been taken by nobody.</param>
    /// <returns>The numbers, or why there are none.</returns>
    public async Task<NumberOutcome> TakeAsync(string? ruleId, int count, CancellationToken cancellationToken)
    {
        if (count is < 1 or > MaxCount)
            throw new ArgumentOutOfRangeException(nameof(count), count, $"count is {count}; accepted: 1 to {MaxCount}.");
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                // Null: another rule became the default one between two looks.
                if (await TryTakeAsync(ruleId, count, cancellationToken) is { } outcome)
                    return outcome;
                if (attempt == Attempts)
                    throw new TimeoutException("The default numbering rule changes faster than numbers can be taken.");
            }
            catch (NpgsqlException e) when (e.IsTransient && attempt < Attempts)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50 * attempt), cancellationToken);
            }
        }
    }

    private async Task<NumberOutcome?> TryTakeAsync(string? ruleId, int count, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await using (var durable = new NpgsqlCommand(DurableSql, connection, transaction))
            await durable.ExecuteNonQueryAsync(cancellationToken);
        if (await UpdateAsync(transaction, ruleId, count, cancellationToken) is { } taken)
        {
            await transaction.CommitAsync(cancellationToken);
            return taken;
        }

        await using var command = new NpgsqlCommand(LeftSql, connection, transaction) { Parameters = { Id(ruleId) } };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        if (!await reader.ReadAsync(cancellationToken))
            return new NumberOutcome.NoRule(ruleId);
        var left = reader.GetInt64(1);
        return left < count ? new NumberOutcome.Exhausted(reader.GetString(0), count, left) : null;
    }

    private static async Task<NumberOutcome.Taken?> UpdateAsync(NpgsqlTransaction transaction, string? ruleId, int count, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(TakeSql, transaction.Connection, transaction)
        {
            Parameters = { new NpgsqlParameter<long> { TypedValue = count }, Id(ruleId) },
        };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        if (!await reader.ReadAsync(cancellationToken))
            return null;
        var rule = new NumberingRule
        {
            Scheme = EpcSchemes.Find(reader.GetString(1)) ?? throw new InvalidOperationException($"The numbering rule {reader.GetString(0)} is of an unknown scheme."),
            CompanyPrefix = reader.GetString(2), Filter = reader.GetInt32(3), ClassReference = reader.GetString(4), Leading = reader.GetString(5),
            Digits = await reader.IsDBNullAsync(6, cancellationToken) ? null : reader.GetInt32(6),
        };
        return new(reader.GetString(0), rule, reader.GetInt64(7), count);
    }

    private static NpgsqlParameter Id(string? ruleId) => new() { Value = (object?)ruleId ?? DBNull.Value, NpgsqlDbType = NpgsqlDbType.Text };
}
