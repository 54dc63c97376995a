namespace TagService.Storage.Corrections;

/// <summary>
/// SQL of what registers should be told. A page is looked for in three ways, each along an index of its own in the order of the assets:
/// columns that are empty, that cannot be read, that name a tag. The three have no asset in common.
/// </summary>
internal static class CorrectionSql
{
    /// <summary>
    /// Corrections behind an asset ($3): $1 sources that are told, $2 sources that are followed, $4 rows at most, $5 kind or null, $6 since or
    /// null. The one asset after another is compared first and only what differs is looked at (OFFSET 0 keeps the planner from mixing the two). Attach: nothing in the column. Replace and end: a tag that is not on the asset. Conflict: a tag that is on another one.
    /// </summary>
    public static string Page { get; } =
        $"""
        SELECT asset_id, source, kind, register_tag, register_tag_key, updated_at FROM (
          (SELECT a.asset_id, a.source, 'attach' AS kind, a.register_tag, a.register_tag_key, a.updated_at
           FROM assets AS a
           WHERE a.register_tag IS NULL AND a.retired_at IS NULL AND a.asset_id > $3 AND a.source = ANY ($1) AND coalesce($5, 'attach') = 'attach'
             AND EXISTS ({OpenHere})
             AND {Changed}
           ORDER BY a.asset_id LIMIT $4)
          UNION ALL
          (SELECT a.asset_id, a.source, 'unreadable-tag', a.register_tag, a.register_tag_key, a.updated_at
           FROM assets AS a
           WHERE a.register_tag IS NOT NULL AND a.register_tag_key IS NULL AND a.retired_at IS NULL AND a.asset_id > $3
             AND a.source = ANY ($1 || $2) AND coalesce($5, 'unreadable-tag') = 'unreadable-tag'
             AND {Changed}
           ORDER BY a.asset_id LIMIT $4)
          UNION ALL
          (SELECT a.asset_id, a.source, k.kind, a.register_tag, a.register_tag_key, a.updated_at
           FROM (
             SELECT a.asset_id, a.source, a.register_tag, a.register_tag_key, a.updated_at FROM assets AS a
             WHERE a.register_tag_key IS NOT NULL AND a.retired_at IS NULL AND a.asset_id > $3 AND a.source = ANY ($1 || $2)
               AND coalesce($5, 'replace') IN ('replace', 'conflict', 'end')
               AND NOT EXISTS ({NamedHere} AND x.end_reason IS NULL)
             ORDER BY a.asset_id OFFSET 0) AS a
           CROSS JOIN LATERAL (SELECT CASE
             WHEN a.source = ANY ($1) AND EXISTS ({OpenHere}) THEN 'replace'
             WHEN EXISTS ({NamedElsewhere}) THEN 'conflict'
             WHEN EXISTS ({NamedHere}) AND NOT EXISTS ({OpenHere}) THEN 'end' END AS kind OFFSET 0) AS k
           WHERE ($5::text IS NULL OR k.kind = $5) AND k.kind IS NOT NULL
             AND {Changed}
           ORDER BY a.asset_id LIMIT $4)) AS found
        ORDER BY asset_id LIMIT $4
        """;

    /// <summary>
    /// Along the indexes in the order of the assets, so that a page ends where it is full. The planner takes the one for a table without
    /// disagreements and the other for one full of them, and is wrong in one of the two by the whole table.
    /// </summary>
    public const string Settings =
        """
        SET LOCAL jit = off; SET LOCAL enable_hashjoin = off; SET LOCAL enable_mergejoin = off; SET LOCAL enable_sort = off;
        SET LOCAL max_parallel_workers_per_gather = 0
        """;

    /// <summary>The attachments that corrections rest on ($1 assets, $2 identities their columns name, $3 kinds), in the order of recording.</summary>
    public const string Attachments =
        """
        SELECT p.asset_id, x.id, x.asset_id, t.identity, t.epc_hex, x.end_reason,
          greatest(x.recorded_at, (SELECT max(c.at) FROM changes AS c WHERE c.kind = 'attachment' AND c.key = x.id::text))
        FROM unnest($1::text[], $2::text[], $3::text[]) AS p (asset_id, identity, kind)
        CROSS JOIN LATERAL (
          SELECT * FROM attachments WHERE asset_id = p.asset_id AND end_reason IS NULL AND p.kind <> 'conflict'
          UNION ALL
          (SELECT * FROM attachments WHERE p.kind = 'end' AND asset_id = p.asset_id AND tag_id = (SELECT id FROM tags WHERE identity = p.identity) ORDER BY id DESC LIMIT 1)
          UNION ALL
          SELECT * FROM attachments
          WHERE p.kind = 'conflict' AND asset_id <> p.asset_id AND end_reason IS NULL AND tag_id = (SELECT id FROM tags WHERE identity = p.identity)) AS x
        JOIN tags AS t ON t.id = x.tag_id
        ORDER BY x.id
        """;

    private const string OpenHere = "SELECT FROM attachments AS x WHERE x.asset_id = a.asset_id AND x.end_reason IS NULL";

    private const string NamedHere =
        "SELECT FROM tags AS t JOIN attachments AS x ON x.tag_id = t.id WHERE t.identity = a.register_tag_key AND x.asset_id = a.asset_id";

    private const string NamedElsewhere =
        "SELECT FROM tags AS t JOIN attachments AS x ON x.tag_id = t.id WHERE t.identity = a.register_tag_key AND x.asset_id <> a.asset_id AND x.end_reason IS NULL";

    private const string Changed =
        """
        ($6::timestamptz IS NULL OR a.updated_at >= $6 OR EXISTS (
                SELECT FROM attachments AS x JOIN changes AS c ON c.kind = 'attachment' AND c.key = x.id::text AND c.at >= $6
                WHERE x.asset_id = a.asset_id OR x.tag_id = (SELECT id FROM tags WHERE identity = a.register_tag_key)))
        """;
}
