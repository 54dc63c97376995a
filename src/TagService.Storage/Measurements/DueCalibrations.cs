using Npgsql;
using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Measurements;

/// <summary>
/// Computes posteriors that writers of attachments have marked: they only mark, since a posterior of thousands of findings takes
/// longer than they should hold a tag. One pair a transaction, so that a process that dies leaves its mark to the next one.
/// </summary>
public sealed class DueCalibrations(NpgsqlDataSource dataSource, TimeProvider clock)
{
    /// <summary>Computes the posterior of the pair that was marked first.</summary>
    /// <param name="classes">The catalogue. Marks of classes that are not in it wait until they are.</param>
    /// <param name="cancellationToken">Gives up; the mark stays.</param>
    /// <returns>The pair; null when none is marked.</returns>
    public async Task<(string TagClassId, string MaterialId)?> ComputeNextAsync(IReadOnlyCollection<TagClass> classes, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(classes);
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using (var look = new NpgsqlCommand(MeasurementSql.AnyMark, connection))
        {
            if (!(bool)(await look.ExecuteScalarAsync(cancellationToken))!)
                return null;
        }

        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        // Whoever stores a posterior holds this lock, so that each computes from all that is committed before it.
        await using (var turn = new NpgsqlCommand(MeasurementSql.Lock, connection))
            await turn.ExecuteNonQueryAsync(cancellationToken);
        if (await TakeMarksAsync(connection, [.. classes.Select(c => c.Id)], cancellationToken) is not { } pair)
            return null;
        var findings = (await Findings.ReadAsync(connection, [pair], cancellationToken))[pair];
        var tagClass = classes.First(c => c.Id == pair.TagClassId);
        await Posteriors.KeepAsync(connection, PairCalibration.Of(tagClass, pair.MaterialId, findings), clock.GetUtcNow(), cancellationToken);
        await transaction.CommitAsync(cancellationToken);
        return pair;
    }

    private static async Task<(string TagClassId, string MaterialId)?> TakeMarksAsync(
        NpgsqlConnection connection, string[] classIds, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(MeasurementSql.TakeMarks, connection)
        {
            Parameters = { new NpgsqlParameter<string[]> { TypedValue = classIds } },
        };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        return await reader.ReadAsync(cancellationToken) ? (reader.GetString(0), reader.GetString(1)) : null;
    }
}
