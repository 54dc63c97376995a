using System.Security.Cryptography;
using System.Text;
using Npgsql;
using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Measurements;

/// <summary>How storing a request of measured ranges ended.</summary>
public enum MeasurementOutcome
{
    /// <summary>Stored, and the posteriors of the pairs it touches with it.</summary>
    Stored,

    /// <summary>The same request was stored before under the same key; nothing changed.</summary>
    StoredBefore,

    /// <summary>The key was used before for something else; nothing changed.</summary>
    KeyReused,
}

/// <summary>Keeps measured ranges, and in the same transaction what they teach.</summary>
public sealed class RangeMeasurementWriter(NpgsqlDataSource dataSource, TimeProvider clock)
{
    /// <summary>Stores findings and the posteriors of the pairs they touch, or nothing.</summary>
    /// <param name="findings">Findings, each with its class as it is today.</param>
    /// <param name="idempotencyKey">The caller's key; null: every request counts.</param>
    /// <param name="cancellationToken">Gives up; nothing is kept then.</param>
    /// <exception cref="InvalidOperationException">The server kept another number of rows than were sent.</exception>
    public async Task<MeasurementOutcome> StoreAsync(
        IReadOnlyList<(TagClass TagClass, RangeMeasurement Finding)> findings, string? idempotencyKey, CancellationToken cancellationToken)
    {
        var now = clock.GetUtcNow();
        string[] json = [.. findings.Select(f => StoredJson.Write(f.Finding))];
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await RunAsync(connection, MeasurementSql.Lock, [], cancellationToken);
        if (idempotencyKey is not null && await TakeKeyAsync(connection, idempotencyKey, Hash(json), json.Length, now, cancellationToken) is { } taken)
            return taken;

        var kept = await RunAsync(
            connection, MeasurementSql.Insert,
            [
                Of<string[]>([.. findings.Select(f => f.Finding.TagClassId)]), Of<string[]>([.. findings.Select(f => f.Finding.MaterialId)]),
                Of(json), Of(now),
            ],
            cancellationToken);
        if (kept != json.Length)
            throw new InvalidOperationException($"Range measurements: {json.Length} rows were sent, the server kept {kept}.");

        var classes = findings.Select(f => f.TagClass).DistinctBy(c => c.Id).ToDictionary(c => c.Id, StringComparer.Ordinal);
        var pairs = findings.Select(f => (f.Finding.TagClassId, f.Finding.MaterialId)).Distinct().ToArray();
        foreach (var (pair, all) in await Findings.ReadAsync(connection, pairs, cancellationToken))
            await Posteriors.KeepAsync(connection, PairCalibration.Of(classes[pair.TagClassId], pair.MaterialId, all), now, cancellationToken);
        await transaction.CommitAsync(cancellationToken);
        return MeasurementOutcome.Stored;
    }

    private static async Task<MeasurementOutcome?> TakeKeyAsync(
        NpgsqlConnection connection, string key, string hash, int count, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (await RunAsync(connection, MeasurementSql.TakeKey, [Of(key), Of(hash), Of(count), Of(now)], cancellationToken) == 1)
            return null;
        await using var command = new NpgsqlCommand(MeasurementSql.ReadKey, connection) { Parameters = { Of(key) } };
        return (string?)await command.ExecuteScalarAsync(cancellationToken) == hash ? MeasurementOutcome.StoredBefore : MeasurementOutcome.KeyReused;
    }

    private static string Hash(string[] json) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', json))));

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private static async Task<int> RunAsync(NpgsqlConnection connection, string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        return await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
