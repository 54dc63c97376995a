using Npgsql;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Measurements;

/// <summary>
/// Keeps the measured range of each attachment beside it, in the attachment's own transaction: one finding a tag however often it is
/// sent, another one when the attachment is corrected, none when it is taken back. Posteriors follow: see <see cref="DueCalibrations"/>.
/// </summary>
internal static class AttachmentFindings
{
    private const string Records = "SELECT asset_id, record::text FROM assets WHERE asset_id = ANY ($1)";

    /// <summary>Writes the findings of what a ledger changed.</summary>
    /// <param name="connection">A connection within the transaction.</param>
    /// <param name="ledger">The ledger.</param>
    /// <param name="again">An attachment whose check was sent once more, perhaps because the asset's record says more now; null: none.</param>
    /// <param name="findClass">Finds a tag class.</param>
    /// <param name="now">The time of recording.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>What each check is worth, by attachment; those that were not looked at are missing.</returns>
    public static async Task<IReadOnlyDictionary<Guid, CheckFinding>> WriteAsync(
        NpgsqlConnection connection, AttachmentLedger ledger, Guid? again, Func<string, TagClass?> findClass, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var touched = ledger.Changed.Where(a => ledger.Stored(a.Id) is not { } before || Differs(before, a)).ToList();
        if (again is { } id && touched.TrueForAll(a => a.Id != id) && ledger.Find(id) is { } sent)
            touched.Add(sent);
        var records = await RecordsAsync(connection, [.. touched.Where(a => a.Check.HasDistance && !a.IsVoid).Select(a => a.AssetId).Distinct()], cancellationToken);
        var findings = touched.ToDictionary(a => a.Id, a => records.TryGetValue(a.AssetId, out var record) ? CheckFindings.Of(a, record, findClass) : new CheckFinding.NotChecked());

        Guid[] known = [.. touched.Where(a => ledger.Stored(a.Id) is not null).Select(a => a.Id)];
        var pairs = known.Length == 0 ? [] : await TakeBackAsync(connection, known, cancellationToken);
        var usable = findings.Where(f => f.Value is CheckFinding.Usable).Select(f => (Id: f.Key, ((CheckFinding.Usable)f.Value).Measurement)).ToList();
        if (usable.Count > 0)
        {
            await RunAsync(
                connection, MeasurementSql.InsertOfAttachments, usable.Count,
                [
                    Of<Guid[]>([.. usable.Select(u => u.Id)]), Of<string[]>([.. usable.Select(u => u.Measurement.TagClassId)]),
                    Of<string[]>([.. usable.Select(u => u.Measurement.MaterialId)]), Of<string[]>([.. usable.Select(u => StoredJson.Write(u.Measurement))]), Of(now),
                ],
                cancellationToken);
            pairs.UnionWith(usable.Select(u => (u.Measurement.TagClassId, u.Measurement.MaterialId)));
        }

        if (pairs.Count > 0)
        {
            await RunAsync(
                connection, MeasurementSql.Mark, pairs.Count,
                [Of<string[]>([.. pairs.Select(p => p.TagClassId)]), Of<string[]>([.. pairs.Select(p => p.MaterialId)])], cancellationToken);
        }

        return findings;
    }

    // An end, a photograph or a remark leaves the finding as it was made, whatever the asset's record says by now.
    private static bool Differs(Attachment before, Attachment after) =>
        (before.AssetId, before.TagClassId, before.MethodId, before.Start, before.Check, before.IsVoid)
        != (after.AssetId, after.TagClassId, after.MethodId, after.Start, after.Check, after.IsVoid);

    private static async Task<Dictionary<string, AssetRecord>> RecordsAsync(NpgsqlConnection connection, string[] assetIds, CancellationToken cancellationToken)
    {
        var records = new Dictionary<string, AssetRecord>(StringComparer.Ordinal);
        if (assetIds.Length == 0)
            return records;
        await using var command = new NpgsqlCommand(Records, connection) { Parameters = { Of(assetIds) } };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            records[reader.GetString(0)] = AssetRecordJson.Read(reader.GetString(1));
        return records;
    }

    private static async Task<HashSet<(string TagClassId, string MaterialId)>> TakeBackAsync(NpgsqlConnection connection, Guid[] ids, CancellationToken cancellationToken)
    {
        var pairs = new HashSet<(string, string)>();
        await using var command = new NpgsqlCommand(MeasurementSql.TakeBack, connection) { Parameters = { Of(ids) } };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            pairs.Add((reader.GetString(0), reader.GetString(1)));
        return pairs;
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, int rows, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        var kept = await command.ExecuteNonQueryAsync(cancellationToken);
        if (kept != rows)
            throw new InvalidOperationException($"Range measurements of attachments: {rows} rows were sent, the server kept {kept}.");
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };
}
