namespace TagService.Storage.Attachments;

/// <summary>The statements of the batch writer.</summary>
internal static class AttachmentBatchSql
{
    /// <summary>Columns in the order in which <see cref="AttachmentColumns"/> writes and reads them.</summary>
    private const string Columns =
        """
        tag_id, id, asset_id, tag_class_id, method_id, start_not_before, start_not_after, end_not_before, end_not_after, end_reason, is_void, taken_over,
        recorded_at, labour_minutes, tag_batch_id, fitter_id, measured_range_m, answered_at_m, silent_at_m, check_eirp_dbm, check_region, check_reader_kind,
        check_site, photo_reference, tid_hex, note, started_by_line, ended_by_line
        """;

    /// <summary>Which assets there are.</summary>
    public const string KnownAssets = "SELECT asset_id FROM assets WHERE asset_id = ANY ($1)";

    /// <summary>Which tag batches there are; they stay until the transaction ends.</summary>
    public const string KnownBatches = "SELECT id FROM tag_batches WHERE id = ANY ($1) FOR KEY SHARE";

    /// <summary>Ids of the batches written last, among which the one somebody meant is looked for.</summary>
    public const string LatestBatches = "SELECT id FROM tag_batches ORDER BY updated_at DESC LIMIT 5000";

    /// <summary>Whole histories.</summary>
    public const string Read = $"SELECT {Columns} FROM attachments WHERE tag_id = ANY ($1)";

    /// <summary>New attachments.</summary>
    public const string Copy = $"COPY attachments ({Columns}) FROM STDIN (FORMAT BINARY)";

    /// <summary>Ends of attachments: all that a line changes of one that is there.</summary>
    public const string End =
        """
        UPDATE attachments AS a
        SET end_not_before = n.not_before, end_not_after = n.not_after, end_reason = n.reason, is_void = n.is_void, ended_by_line = n.line
        FROM unnest($1::bigint[], $2::uuid[], $3::timestamptz[], $4::timestamptz[], $5::text[], $6::boolean[], $7::uuid[])
          AS n (tag_id, id, not_before, not_after, reason, is_void, line)
        WHERE a.tag_id = n.tag_id AND a.id = n.id
        """;

    /// <summary>The history of changes; bulk writing goes past EF Core and writes its own.</summary>
    public const string CopyChanges = "COPY changes (at, actor, trace_id, kind, key, action, before, after) FROM STDIN (FORMAT BINARY)";
}
