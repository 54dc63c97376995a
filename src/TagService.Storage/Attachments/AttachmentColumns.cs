using System.Diagnostics;
using Npgsql;
using NpgsqlTypes;
using TagService.Storage.Changes;
using TagService.Storage.Tables;

namespace TagService.Storage.Attachments;

/// <summary>Rows of attachments in binary, in the order of <see cref="AttachmentBatchSql"/>. Every value names its database type: without it Npgsql may send another type's bytes.</summary>
internal static class AttachmentColumns
{
    public static async Task WriteAsync(NpgsqlBinaryImporter copy, AttachmentRow row, CancellationToken cancellationToken)
    {
        await copy.StartRowAsync(cancellationToken);
        await copy.WriteAsync(row.TagId, NpgsqlDbType.Bigint, cancellationToken);
        await copy.WriteAsync(row.Id, NpgsqlDbType.Uuid, cancellationToken);
        foreach (var text in new[] { row.AssetId, row.TagClassId, row.MethodId })
            await TextAsync(copy, text, cancellationToken);
        foreach (var time in new[] { row.StartNotBefore, row.StartNotAfter, row.EndNotBefore, row.EndNotAfter })
            await ValueAsync(copy, time, NpgsqlDbType.TimestampTz, cancellationToken);
        await TextAsync(copy, row.EndReason, cancellationToken);
        await copy.WriteAsync(row.IsVoid, NpgsqlDbType.Boolean, cancellationToken);
        await copy.WriteAsync(row.TakenOver, NpgsqlDbType.Boolean, cancellationToken);
        await copy.WriteAsync(row.RecordedAt, NpgsqlDbType.TimestampTz, cancellationToken);
        await ValueAsync(copy, row.LabourMinutes, NpgsqlDbType.Double, cancellationToken);
        await TextAsync(copy, row.TagBatchId, cancellationToken);
        await TextAsync(copy, row.FitterId, cancellationToken);
        foreach (var number in new[] { row.MeasuredRangeM, row.AnsweredAtM, row.SilentAtM, row.CheckEirpDbm })
            await ValueAsync(copy, number, NpgsqlDbType.Double, cancellationToken);
        var kind = row.CheckReaderKind is { } reader ? AttachmentTable.TextOf(reader) : null;
        foreach (var text in new[] { row.CheckRegion, kind, row.CheckSite, row.PhotoReference, row.TidHex, row.Note })
            await TextAsync(copy, text, cancellationToken);
        await ValueAsync(copy, row.StartedByLine, NpgsqlDbType.Uuid, cancellationToken);
        await ValueAsync(copy, row.EndedByLine, NpgsqlDbType.Uuid, cancellationToken);
    }

    public static AttachmentRow Read(NpgsqlDataReader r) => new()
    {
        TagId = r.GetInt64(0), Id = r.GetGuid(1), AssetId = r.GetString(2), TagClassId = Text(r, 3), MethodId = Text(r, 4),
        StartNotBefore = Value<DateTimeOffset>(r, 5), StartNotAfter = Value<DateTimeOffset>(r, 6),
        EndNotBefore = Value<DateTimeOffset>(r, 7), EndNotAfter = Value<DateTimeOffset>(r, 8),
        EndReason = Text(r, 9), IsVoid = r.GetBoolean(10), TakenOver = r.GetBoolean(11), RecordedAt = r.GetFieldValue<DateTimeOffset>(12),
        LabourMinutes = Value<double>(r, 13), TagBatchId = Text(r, 14), FitterId = Text(r, 15), MeasuredRangeM = Value<double>(r, 16),
        AnsweredAtM = Value<double>(r, 17), SilentAtM = Value<double>(r, 18), CheckEirpDbm = Value<double>(r, 19), CheckRegion = Text(r, 20),
        CheckReaderKind = Text(r, 21) is { } kind ? AttachmentTable.KindOf(kind) : null, CheckSite = Text(r, 22), PhotoReference = Text(r, 23),
        TidHex = Text(r, 24), Note = Text(r, 25), StartedByLine = Value<Guid>(r, 26), EndedByLine = Value<Guid>(r, 27),
    };

    /// <summary>The row of the history of changes that EF Core's interceptor would write.</summary>
    public static async Task WriteChangeAsync(
        NpgsqlBinaryImporter copy, AttachmentRow? before, AttachmentRow after, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await copy.StartRowAsync(cancellationToken);
        await copy.WriteAsync(now, NpgsqlDbType.TimestampTz, cancellationToken);
        await copy.WriteAsync(ChangeOrigin.Actor, NpgsqlDbType.Text, cancellationToken);
        await TextAsync(copy, Activity.Current?.TraceId.ToHexString(), cancellationToken);
        await copy.WriteAsync(AuditKinds.Attachment, NpgsqlDbType.Text, cancellationToken);
        await copy.WriteAsync(after.Id.ToString(), NpgsqlDbType.Text, cancellationToken);
        await copy.WriteAsync(before is null ? "created" : "changed", NpgsqlDbType.Text, cancellationToken);
        if (before is null)
            await copy.WriteNullAsync(cancellationToken);
        else
            await copy.WriteAsync(StoredJson.Write(before), NpgsqlDbType.Jsonb, cancellationToken);
        await copy.WriteAsync(StoredJson.Write(after), NpgsqlDbType.Jsonb, cancellationToken);
    }

    private static Task TextAsync(NpgsqlBinaryImporter copy, string? text, CancellationToken cancellationToken) =>
        text is null ? copy.WriteNullAsync(cancellationToken) : copy.WriteAsync(text, NpgsqlDbType.Text, cancellationToken);

    private static Task ValueAsync<T>(NpgsqlBinaryImporter copy, T? value, NpgsqlDbType type, CancellationToken cancellationToken)
        where T : struct => value is { } v ? copy.WriteAsync(v, type, cancellationToken) : copy.WriteNullAsync(cancellationToken);

    private static string? Text(NpgsqlDataReader reader, int column) => reader.IsDBNull(column) ? null : reader.GetString(column);

    private static T? Value<T>(NpgsqlDataReader reader, int column)
        where T : struct => reader.IsDBNull(column) ? null : reader.GetFieldValue<T>(column);
}
