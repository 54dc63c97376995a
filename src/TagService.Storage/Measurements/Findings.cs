using Npgsql;
using TagService.Domain.Radio;

namespace TagService.Storage.Measurements;

/// <summary>Reads the findings of pairs of class and material.</summary>
internal static class Findings
{
    public static async Task<IReadOnlyDictionary<(string TagClassId, string MaterialId), List<RangeMeasurement>>> ReadAsync(
        NpgsqlConnection connection, IReadOnlyCollection<(string TagClassId, string MaterialId)> pairs, CancellationToken cancellationToken)
    {
        var found = pairs.ToDictionary(p => p, _ => new List<RangeMeasurement>());
        await using var command = new NpgsqlCommand(MeasurementSql.Findings, connection);
        command.Parameters.Add(new NpgsqlParameter<string[]> { TypedValue = [.. pairs.Select(p => p.TagClassId)] });
        command.Parameters.Add(new NpgsqlParameter<string[]> { TypedValue = [.. pairs.Select(p => p.MaterialId)] });
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            found[(reader.GetString(0), reader.GetString(1))].Add(StoredJson.Read<RangeMeasurement>(reader.GetString(2)));
        return found;
    }
}
