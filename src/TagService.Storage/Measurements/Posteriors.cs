using Npgsql;
using TagService.Domain.Radio;

namespace TagService.Storage.Measurements;

/// <summary>Keeps posteriors of pairs of class and material.</summary>
internal static class Posteriors
{
    /// <summary>Keeps one; without any finding behind it the pair is forgotten.</summary>
    public static async Task KeepAsync(NpgsqlConnection connection, PairCalibration pair, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(pair.Posterior.Observations > 0 ? MeasurementSql.Keep : MeasurementSql.Forget, connection)
        {
            Parameters = { Of(pair.TagClassId), Of(pair.MaterialId) },
        };
        if (pair.Posterior.Observations > 0)
        {
            command.Parameters.AddRange(new NpgsqlParameter[]
            {
                Of(pair.Posterior.Observations), Of(pair.Posterior.MeanShiftDb), Of(pair.Posterior.SigmaDb), Of(pair.Measured), Of(pair.AnswersAt),
                Of(pair.SilentAt), Of(pair.FailedCheck), Of(pair.Between), Of(pair.Basis), Of(now),
            });
        }

        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };
}
