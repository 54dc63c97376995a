using System.Text.Json;
using Npgsql;
using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Recommendations;

/// <summary>What the database holds beside the built-in catalogue.</summary>
/// <param name="Version">Version of these rows.</param>
/// <param name="Overlays">Overlays that read.</param>
/// <param name="Unreadable">Ids of overlays that do not read, written by another program version or by hand.</param>
/// <param name="Calibrations">Posteriors with the row version of each.</param>
internal sealed record CatalogueRows(
    string Version, IReadOnlyList<StoredOverlay> Overlays, IReadOnlyList<string> Unreadable, IReadOnlyList<(PairCalibration Pair, string RowVersion)> Calibrations)
{
    public static CatalogueRows None { get; } = new("", [], [], []);
}

/// <summary>Reads overlays and calibrations; the version first, so that a change in between is seen at the next look.</summary>
internal static class CatalogueReader
{
    /// <summary>Changes with every insert, update and delete: PostgreSQL gives each row version its transaction's number (xmin).</summary>
    public const string VersionSql =
        """
        SELECT (SELECT coalesce(md5(string_agg(id || ' ' || xmin::text, ',' ORDER BY id)), '-') FROM tag_class_overlays)
          || '/' || (SELECT coalesce(md5(string_agg(tag_class_id || ' ' || material_id || ' ' || xmin::text, ',' ORDER BY tag_class_id, material_id)), '-')
                     FROM range_calibrations)
        """;

    private const string OverlaySql = "SELECT id, overlay::text, updated_at FROM tag_class_overlays ORDER BY id";

    private const string CalibrationSql =
        """
        SELECT tag_class_id, material_id, observations, mean_shift_db, sigma_db, measured, answers_at, silent_at, failed_check, answers_between, basis, xmin::text
        FROM range_calibrations ORDER BY tag_class_id, material_id
        """;

    public static async Task<string> ReadVersionAsync(NpgsqlConnection connection, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(VersionSql, connection);
        return (string)(await command.ExecuteScalarAsync(cancellationToken))!;
    }

    public static async Task<CatalogueRows> ReadAsync(NpgsqlConnection connection, string version, CancellationToken cancellationToken)
    {
        var overlays = new List<StoredOverlay>();
        var unreadable = new List<string>();
        await using (var command = new NpgsqlCommand(OverlaySql, connection))
        {
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            while (await reader.ReadAsync(cancellationToken))
            {
                if (Overlay(reader.GetString(1)) is { } overlay && overlay.Id == reader.GetString(0) && TagClassCheck.Faults(overlay).Count == 0)
                    overlays.Add(new(overlay, reader.GetFieldValue<DateTimeOffset>(2)));
                else
                    unreadable.Add(reader.GetString(0));
            }
        }

        var calibrations = new List<(PairCalibration, string)>();
        await using (var command = new NpgsqlCommand(CalibrationSql, connection))
        {
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            while (await reader.ReadAsync(cancellationToken))
            {
                calibrations.Add((
                    new(
                        reader.GetString(0), reader.GetString(1), new(reader.GetInt32(2), reader.GetDouble(3), reader.GetDouble(4)),
                        reader.GetInt32(5), reader.GetInt32(6), reader.GetInt32(7), reader.GetInt32(8), reader.GetInt32(9), reader.GetString(10)),
                    reader.GetString(11)));
            }
        }

        return new(version, overlays, unreadable, calibrations);
    }

    private static TagClassOverlay? Overlay(string json)
    {
        try
        {
            return StoredJson.Read<TagClassOverlay>(json);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
