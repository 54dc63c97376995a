namespace TagService.Storage.Bulk;

/// <summary>The statements of the bulk writer, in one place because their text and their order is what makes several writers safe.</summary>
internal static class AssetSql
{
    /// <summary>
    /// Which of a chunk's assets are new or differ, by hash: nothing else of them is sent. Each goes down the primary key (LIMIT keeps the
    /// planner from reading the whole table instead).
    /// </summary>
    public const string Differ =
        """
        SELECT s.n
        FROM unnest($1::text[], $2::bytea[], $3::timestamptz[]) WITH ORDINALITY AS s (asset_id, content_hash, retired_at, n)
        LEFT JOIN LATERAL (SELECT content_hash, retired_at FROM assets WHERE asset_id = s.asset_id LIMIT 1) AS a ON true
        WHERE a.content_hash IS DISTINCT FROM s.content_hash OR s.retired_at <> a.retired_at
        """;

    /// <summary>A chunk goes down the primary key, whatever the planner thinks of the table's size; times in the history are UTC as elsewhere.</summary>
    public const string Settings = "SET LOCAL enable_hashjoin = off; SET LOCAL enable_mergejoin = off; SET LOCAL timezone = 'UTC'";

    /// <summary>Where they are put on the way; the transaction takes it away.</summary>
    public const string Stage =
        $"""
        {Settings};
        CREATE TEMP TABLE IF NOT EXISTS asset_stage (
          asset_id text COLLATE "C", record jsonb, location_name text, register_tag text, register_tag_key text, retired boolean,
          retired_at timestamptz, retired_reason text, content_hash bytea, input_key text) ON COMMIT DROP;
        TRUNCATE asset_stage
        """;

    /// <summary>Binary COPY into it.</summary>
    public const string Copy =
        """
        COPY asset_stage (asset_id, record, location_name, register_tag, register_tag_key, retired, retired_at, retired_reason, content_hash, input_key)
        FROM STDIN (FORMAT BINARY)
        """;

    /// <summary>
    /// Step 1: adds new assets ($1 source, $2 now, $3 actor, $4 trace), with their change and their mark for the worker. In order of
    /// the ids, like every step: two writers wait for each other and never in a ring.
    /// </summary>
    public static string Create { get; } =
        $"""
        WITH created AS (
          INSERT INTO assets AS a (asset_id, record, location_name, register_tag, register_tag_key, source, retired_at, retired_reason, first_seen_at, updated_at,
            content_hash, input_key)
          SELECT s.asset_id, s.record, s.location_name, s.register_tag, s.register_tag_key, $1, CASE WHEN s.retired THEN coalesce(s.retired_at, $2) END, s.retired_reason,
            $2, $2, s.content_hash, s.input_key
          FROM asset_stage AS s
          ORDER BY s.asset_id
          ON CONFLICT (asset_id) DO NOTHING
          RETURNING a.asset_id, {State("a")} AS after),
        noted AS (
          INSERT INTO changes (at, actor, trace_id, kind, key, action, after)
          SELECT $2, $3, $4, 'asset', asset_id, 'created', after FROM created),
        marked AS (INSERT INTO recommendations_due (asset_id) SELECT asset_id FROM created ON CONFLICT (asset_id) DO NOTHING)
        SELECT asset_id FROM created
        """;

    /// <summary>
    /// Step 2: holds those that existed. A writer that waits here has added all its own before, so nobody who is still adding waits for
    /// what it holds. The next statement then sees what others have committed meanwhile.
    /// </summary>
    public const string Hold =
        """
        SELECT a.asset_id FROM asset_stage AS s JOIN assets AS a ON a.asset_id = s.asset_id ORDER BY a.asset_id FOR NO KEY UPDATE OF a
        """;

    /// <summary>Step 3: writes those that differ, with the change before and after, and marks those of which the engine reads something else.</summary>
    public static string Change { get; } =
        $"""
        WITH changed AS (
          UPDATE assets AS a
          SET record = s.record, location_name = s.location_name, register_tag = s.register_tag, register_tag_key = s.register_tag_key, source = $1,
            retired_at = CASE WHEN s.retired THEN coalesce(s.retired_at, o.retired_at, $2) END, retired_reason = s.retired_reason,
            updated_at = $2, content_hash = s.content_hash, input_key = s.input_key
          FROM asset_stage AS s JOIN assets AS o ON o.asset_id = s.asset_id
          WHERE a.asset_id = s.asset_id AND {Differs}
          RETURNING a.asset_id, {State("o")} AS before, {State("a")} AS after,
            o.input_key <> a.input_key AS due, o.retired_at IS NOT NULL AND a.retired_at IS NULL AS brought_back),
        noted AS (
          INSERT INTO changes (at, actor, trace_id, kind, key, action, before, after)
          SELECT $2, $3, $4, 'asset', asset_id, 'changed', before, after FROM changed),
        marked AS (INSERT INTO recommendations_due (asset_id) SELECT asset_id FROM changed WHERE due ON CONFLICT (asset_id) DO NOTHING)
        SELECT asset_id, brought_back FROM changed
        """;

    /// <summary>
    /// Step 4: same content under another hash (rows of an older program version): only the hash and the key are brought up to date,
    /// which is no change.
    /// </summary>
    public const string Rehash =
        """
        WITH rehashed AS (
          UPDATE assets AS a SET content_hash = s.content_hash, input_key = s.input_key, register_tag_key = s.register_tag_key
          FROM asset_stage AS s JOIN assets AS o ON o.asset_id = s.asset_id
          WHERE a.asset_id = s.asset_id AND o.content_hash <> s.content_hash
          RETURNING a.asset_id, o.input_key <> a.input_key AS due)
        INSERT INTO recommendations_due (asset_id) SELECT asset_id FROM rehashed WHERE due ON CONFLICT (asset_id) DO NOTHING
        """;

    /// <summary>
    /// Adds assets of which only the id is known ($5 ids, $6 records, $7 hashes, $8 what the engine reads of an empty record); those that
    /// exist stay as they are.
    /// </summary>
    public static string CreateThin { get; } =
        $"""
        WITH created AS (
          INSERT INTO assets AS a (asset_id, record, source, first_seen_at, updated_at, content_hash, input_key)
          SELECT n.asset_id, n.record::jsonb, $1, $2, $2, n.content_hash, $8
          FROM unnest($5::text[], $6::text[], $7::bytea[]) AS n (asset_id, record, content_hash)
          ORDER BY n.asset_id COLLATE "C"
          ON CONFLICT (asset_id) DO NOTHING
          RETURNING a.asset_id, {State("a")} AS after),
        noted AS (
          INSERT INTO changes (at, actor, trace_id, kind, key, action, after)
          SELECT $2, $3, $4, 'asset', asset_id, 'created', after FROM created)
        INSERT INTO recommendations_due (asset_id) SELECT asset_id FROM created ON CONFLICT (asset_id) DO NOTHING
        """;

    /// <summary>Holds assets in service by id, in their order.</summary>
    public const string HoldInService =
        "SELECT asset_id FROM assets WHERE asset_id = ANY ($1) AND retired_at IS NULL ORDER BY asset_id FOR NO KEY UPDATE";

    /// <summary>Retires assets that are held and in service ($5; $6 time, $7 reason). The next writer works the hash out again.</summary>
    public static string Retire { get; } =
        $"""
        WITH changed AS (
          UPDATE assets AS a
          SET retired_at = $6, retired_reason = $7, source = $1, updated_at = $2, content_hash = ''
          FROM assets AS o
          WHERE o.asset_id = ANY ($5) AND a.asset_id = o.asset_id
          RETURNING a.asset_id, {State("o")} AS before, {State("a")} AS after),
        noted AS (
          INSERT INTO changes (at, actor, trace_id, kind, key, action, before, after)
          SELECT $2, $3, $4, 'asset', asset_id, 'changed', before, after FROM changed)
        SELECT asset_id FROM changed
        """;

    private const string Differs =
        """
        (o.record <> s.record OR o.source <> $1 OR (o.retired_at IS NOT NULL) <> s.retired OR (s.retired AND s.retired_at <> o.retired_at)
              OR (o.location_name, o.register_tag, o.retired_reason) IS DISTINCT FROM (s.location_name, s.register_tag, s.retired_reason))
        """;

    // As ChangeWriter writes a row: the columns that are content, by their names in the program, nulls left out.
    private static string State(string row) =>
        $"""
        jsonb_strip_nulls(jsonb_build_object('assetId', {row}.asset_id, 'record', {row}.record, 'locationName', {row}.location_name,
              'registerTag', {row}.register_tag, 'source', {row}.source, 'retiredAt', {row}.retired_at, 'retiredReason', {row}.retired_reason,
              'firstSeenAt', {row}.first_seen_at, 'updatedAt', {row}.updated_at))
        """;
}
