namespace TagService.Storage.Registers;

/// <summary>SQL of runs over register sources. Every statement of a run that writes asks whether the worker still has it.</summary>
internal static class RegisterSyncSql
{
    /// <summary>Asks for the runs that are due by their schedule ($1 now). A source whose last run is not over gets none.</summary>
    public const string RequestDue =
        """
        INSERT INTO register_syncs (source_name, state, requested_by, requested_at, is_full_pass, accepts_missing,
          attempts, rows, created, changed, unchanged, refused, repeated, brought_back, retired)
        SELECT s.name, 'waiting', 'schedule', $1, false, false, 0, 0, 0, 0, 0, 0, 0, 0, 0
        FROM register_sources AS s
        LEFT JOIN LATERAL (SELECT requested_at FROM register_syncs WHERE source_name = s.name ORDER BY id DESC LIMIT 1) AS last ON true
        WHERE s.is_enabled AND s.every_minutes IS NOT NULL
          AND (last.requested_at IS NULL OR last.requested_at + make_interval(mins => s.every_minutes) <= $1)
        ON CONFLICT (source_name) WHERE state IN ('waiting', 'running') DO NOTHING
        """;

    /// <summary>Takes the run that has waited longest ($1 worker, $2 until, $3 now); runs of workers that are dead wait too.</summary>
    public const string Claim =
        """
        UPDATE register_syncs AS s
        SET state = 'running', claimed_by = $1, claimed_until = $2, started_at = coalesce(s.started_at, $3), try_again_at = NULL,
          reason_code = NULL, reason_detail = NULL
        FROM (
          SELECT id FROM register_syncs
          WHERE state IN ('waiting', 'running') AND coalesce(try_again_at, $3) <= $3 AND coalesce(claimed_until, $3) <= $3
          ORDER BY id FOR UPDATE SKIP LOCKED LIMIT 1) AS next
        WHERE s.id = next.id
        RETURNING s.id
        """;

    /// <summary>Is it still ours ($1 run, $2 worker)? Then it is held to the end of the transaction, ours until $3, and tells where it stands.</summary>
    public const string Hold =
        """
        UPDATE register_syncs SET claimed_until = $3 WHERE id = $1 AND claimed_by = $2 AND state = 'running' RETURNING position
        """;

    /// <summary>
    /// Which of these rows ($3 hashes) the source had exactly like that before ($2), and that the run ($1) came across their assets. Tells
    /// their places in the list, from 1, of one row an asset.
    /// </summary>
    public const string Known =
        """
        WITH known AS (
          SELECT min(h.place) AS place, r.asset_id
          FROM unnest($3::bytea[]) WITH ORDINALITY AS h (hash, place)
          JOIN register_rows AS r ON r.source_name = $2 AND r.row_hash = h.hash
          GROUP BY r.asset_id),
        seen AS (
          INSERT INTO register_sync_assets (sync_id, asset_id) SELECT $1, asset_id FROM known ORDER BY asset_id COLLATE "C"
          ON CONFLICT (sync_id, asset_id) DO NOTHING)
        SELECT place FROM known
        """;

    /// <summary>Notes that the run ($1) came across assets ($2) and tells those that it had not met before.</summary>
    public const string Meet =
        """
        INSERT INTO register_sync_assets (sync_id, asset_id) SELECT $1, id FROM unnest($2::text[]) AS a (id) ORDER BY id COLLATE "C"
        ON CONFLICT (sync_id, asset_id) DO NOTHING
        RETURNING asset_id
        """;

    /// <summary>
    /// The assets ($2) as they are, held, in the order in which every writer holds them, and whether the source ($1) listed them before. Other
    /// writers add new assets before they hold known ones: two that meet in both can wait for each other, then one of them is tried again.
    /// </summary>
    public const string HoldAssets =
        """
        SELECT a.asset_id, a.record::text, a.location_name, a.register_tag, a.retired_at, a.retired_reason, a.source,
          EXISTS (SELECT FROM register_rows AS r WHERE r.source_name = $1 AND r.asset_id = a.asset_id)
        FROM assets AS a WHERE a.asset_id = ANY ($2) ORDER BY a.asset_id FOR NO KEY UPDATE OF a
        """;

    /// <summary>Which row made which asset ($1 source, $2 assets, $3 hashes).</summary>
    public const string List =
        """
        INSERT INTO register_rows AS r (source_name, asset_id, row_hash)
        SELECT $1, n.asset_id, n.row_hash FROM unnest($2::text[], $3::bytea[]) AS n (asset_id, row_hash) ORDER BY n.asset_id COLLATE "C"
        ON CONFLICT (source_name, asset_id) DO UPDATE SET row_hash = excluded.row_hash WHERE r.row_hash <> excluded.row_hash
        """;

    /// <summary>Keeps refused rows; binary COPY.</summary>
    public const string CopyRejected =
        "COPY rejected_rows (sync_id, number, place, asset_id, reason, problems, original_text) FROM STDIN (FORMAT binary)";

    /// <summary>Counts a page and keeps the position behind it.</summary>
    public const string Advance =
        """
        UPDATE register_syncs
        SET position = $2, rows = rows + $3, created = created + $4, changed = changed + $5, unchanged = unchanged + $6, refused = refused + $7,
          repeated = repeated + $8, brought_back = brought_back + $9, announced = coalesce($10, announced), notes = $11, attempts = 0
        WHERE id = $1
        """;

    /// <summary>
    /// Both lists are read in the order of their keys: the server has no statistics of what a run has just met, and would look every asset up.
    /// </summary>
    public const string InOrder = "SET LOCAL enable_nestloop = off; SET LOCAL enable_hashjoin = off";

    /// <summary>
    /// How many assets in service the source ($1) listed before, how many of them the run ($2) has not met, and how many it has not met at all.
    /// </summary>
    public const string CountMissing =
        """
        SELECT count(*) FILTER (WHERE a.retired_at IS NULL), count(*) FILTER (WHERE a.retired_at IS NULL AND m.asset_id IS NULL),
          count(*) FILTER (WHERE m.asset_id IS NULL)
        FROM register_rows AS r
        JOIN assets AS a ON a.asset_id = r.asset_id
        LEFT JOIN register_sync_assets AS m ON m.sync_id = $2 AND m.asset_id = r.asset_id
        WHERE r.source_name = $1
        """;

    /// <summary>Assets on the source's list ($1) behind $4 that the run ($2) has not met, $3 at most.</summary>
    public const string Missing =
        """
        SELECT l.asset_id FROM register_rows AS l LEFT JOIN register_sync_assets AS m ON m.sync_id = $2 AND m.asset_id = l.asset_id
        WHERE l.source_name = $1 AND l.asset_id > $4 AND m.asset_id IS NULL ORDER BY l.asset_id LIMIT $3
        """;

    /// <summary>Takes assets ($2) off the source's list ($1); tells which of them other sources list.</summary>
    public const string Unlist =
        """
        WITH gone AS (DELETE FROM register_rows WHERE source_name = $1 AND asset_id = ANY ($2) RETURNING asset_id)
        SELECT g.asset_id, EXISTS (
          SELECT FROM register_sources AS s JOIN register_rows AS o ON o.source_name = s.name AND o.asset_id = g.asset_id WHERE s.name <> $1)
        FROM gone AS g
        """;

    /// <summary>The position behind the last finished run of the source ($1) under the same settings ($2), and when everything was last read.</summary>
    public const string LastPosition =
        """
        SELECT
          (SELECT position FROM register_syncs WHERE source_name = $1 AND state = 'done' AND settings_hash = $2 ORDER BY id DESC LIMIT 1),
          (SELECT max(started_at) FROM register_syncs WHERE source_name = $1 AND state = 'done' AND settings_hash = $2 AND is_full_pass)
        """;

    /// <summary>Starts a run's book anew ($1 run): settings ($2), position ($3), full pass ($4).</summary>
    public const string Restart =
        """
        UPDATE register_syncs
        SET settings_hash = $2, position = $3, is_full_pass = $4, rows = 0, announced = NULL, created = 0, changed = 0, unchanged = 0, refused = 0,
          repeated = 0, brought_back = 0, retired = 0, missing = NULL, notes = NULL
        WHERE id = $1
        """;

    /// <summary>What the runs of a source ($1) came across is of no use once they are over; also of those that were cancelled.</summary>
    public const string Forget =
        """
        DELETE FROM register_sync_assets AS a USING register_syncs AS s
        WHERE s.id = a.sync_id AND s.source_name = $1 AND s.state NOT IN ('waiting', 'running')
        """;

    /// <summary>Runs of a source ($1) that are kept, with their refused rows: the latest $2.</summary>
    public const string Prune =
        """
        DELETE FROM register_syncs WHERE source_name = $1 AND state NOT IN ('waiting', 'running')
          AND id < (SELECT id FROM register_syncs WHERE source_name = $1 ORDER BY id DESC OFFSET $2 LIMIT 1)
          AND id <> coalesce((SELECT max(id) FROM register_syncs WHERE source_name = $1 AND state = 'done'), 0)
        """;
}
