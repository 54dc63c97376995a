using Npgsql;
using NpgsqlTypes;

namespace TagService.Storage.Corrections;

/// <summary>What registers should be told: worked out from the mirror and the attachments whenever it is asked for, so that it is over by itself once they agree.</summary>
public sealed class RegisterCorrections(NpgsqlDataSource dataSource)
{
    /// <summary>Corrections behind an asset, in ordinal order of the assets; one an asset at most.</summary>
    /// <param name="filter">Which are wanted.</param>
    /// <param name="afterAssetId">Last asset of the page before; empty for the beginning.</param>
    /// <param name="limit">Most corrections to return.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<List<RegisterCorrection>> PageAsync(CorrectionFilter filter, string afterAssetId, int limit, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await using (var settings = new NpgsqlCommand(CorrectionSql.Settings, connection))
            await settings.ExecuteNonQueryAsync(cancellationToken);
        var found = new List<RegisterCorrection>();
        await using (var command = new NpgsqlCommand(CorrectionSql.Page, connection))
        {
            command.Parameters.Add(Of<string[]>([.. filter.Told]));
            command.Parameters.Add(Of<string[]>([.. filter.Followed]));
            command.Parameters.Add(Of(afterAssetId));
            command.Parameters.Add(Of(limit));
            command.Parameters.Add(new NpgsqlParameter { Value = filter.Kind is { } kind ? TextOf(kind) : DBNull.Value, NpgsqlDbType = NpgsqlDbType.Text });
            command.Parameters.Add(new NpgsqlParameter { Value = filter.Since is { } since ? since.ToUniversalTime() : DBNull.Value, NpgsqlDbType = NpgsqlDbType.TimestampTz });
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            while (await reader.ReadAsync(cancellationToken))
            {
                found.Add(new(
                    reader.GetString(0), reader.GetString(1), Kinds[reader.GetString(2)], reader.IsDBNull(3) ? null : reader.GetString(3), reader.IsDBNull(4) ? null : reader.GetString(4),
                    reader.GetFieldValue<DateTimeOffset>(5), []));
            }
        }

        return found.Count == 0 ? found : await WithAttachmentsAsync(connection, found, cancellationToken);
    }

    private static readonly KebabText<CorrectionKind> Texts = new();

    private static readonly Dictionary<string, CorrectionKind> Kinds = Enum.GetValues<CorrectionKind>().ToDictionary(TextOf, StringComparer.Ordinal);

    private static string TextOf(CorrectionKind kind) => (string)Texts.ConvertToProvider(kind)!;

    private static async Task<List<RegisterCorrection>> WithAttachmentsAsync(
        NpgsqlConnection connection, List<RegisterCorrection> found, CancellationToken cancellationToken)
    {
        var attachments = new List<(string Corrected, CorrectionAttachment Attachment)>();
        await using (var command = new NpgsqlCommand(CorrectionSql.Attachments, connection))
        {
            command.Parameters.Add(Of<string[]>([.. found.Select(c => c.AssetId)]));
            command.Parameters.Add(Of<string?[]>([.. found.Select(c => c.RegisterTagKey)]));
            command.Parameters.Add(Of<string[]>([.. found.Select(c => TextOf(c.Kind))]));
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            while (await reader.ReadAsync(cancellationToken))
            {
                attachments.Add((reader.GetString(0), new(
                    reader.GetGuid(1), reader.GetString(2), reader.GetString(3), reader.IsDBNull(4) ? null : reader.GetString(4), reader.IsDBNull(5) ? null : reader.GetString(5),
                    reader.GetFieldValue<DateTimeOffset>(6))));
            }
        }

        var byAsset = attachments.ToLookup(a => a.Corrected, a => a.Attachment, StringComparer.Ordinal);
        return found.ConvertAll(c => c with
        {
            Attachments = [.. byAsset[c.AssetId]],
            Since = byAsset[c.AssetId].Select(a => a.ChangedAt).Append(c.Since).Max(),
        });
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };
}
