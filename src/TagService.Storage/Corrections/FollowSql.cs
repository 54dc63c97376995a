namespace TagService.Storage.Corrections;

/// <summary>SQL of following tag columns of registers that are believed.</summary>
internal static class FollowSql
{
    /// <summary>
    /// Assets in service of a source ($1) behind an asset ($2) whose column names a tag that is not open on them, $3 at most; only those whose
    /// content changed at or after $4 where that is given. With each: since when the column names it ($5: seen first), what it named before,
    /// and since when. Left out: where an attachment of that tag on the asset was ended, or taken back, after the column came to name it: somebody
    /// knew better.
    /// </summary>
    public const string Candidates =
        """
        SELECT a.asset_id, a.register_tag, a.register_tag_key, w.since, w.before_tag, w.before_since
        FROM assets AS a
        CROSS JOIN LATERAL (
          SELECT coalesce(n.at, a.first_seen_at) AS since, n.before_tag,
            (SELECT p.at FROM changes AS p
             WHERE n.before_tag IS NOT NULL AND p.kind = 'asset' AND p.key = a.asset_id AND p.id < n.id
               AND p.after ->> 'registerTag' = n.before_tag AND p.before ->> 'registerTag' IS DISTINCT FROM n.before_tag
             ORDER BY p.id DESC LIMIT 1) AS before_since
          FROM (VALUES (1)) AS one
          LEFT JOIN LATERAL (
            SELECT c.id, c.at, c.before ->> 'registerTag' AS before_tag FROM changes AS c
            WHERE c.kind = 'asset' AND c.key = a.asset_id AND c.before ->> 'registerTag' IS DISTINCT FROM c.after ->> 'registerTag'
            ORDER BY c.id DESC LIMIT 1) AS n ON true) AS w
        WHERE a.source = $1 AND a.register_tag_key IS NOT NULL AND a.retired_at IS NULL AND a.asset_id > $2
          AND ($4::timestamptz IS NULL OR a.updated_at >= $4)
          AND NOT EXISTS (
            SELECT FROM tags AS t JOIN attachments AS x ON x.tag_id = t.id
            WHERE t.identity = a.register_tag_key AND x.asset_id = a.asset_id AND x.end_reason IS NULL)
          AND NOT EXISTS (
            SELECT FROM tags AS t JOIN attachments AS x ON x.tag_id = t.id JOIN changes AS c ON c.kind = 'attachment' AND c.key = x.id::text AND c.at >= w.since
            WHERE t.identity = a.register_tag_key AND x.asset_id = a.asset_id)
        ORDER BY a.asset_id LIMIT $3
        """;

    /// <summary>Open attachments of tags ($2) on assets ($1), pair by pair.</summary>
    public const string OpenPairs =
        """
        SELECT p.asset_id, x.id
        FROM unnest($1::text[], $2::text[]) AS p (asset_id, identity)
        JOIN tags AS t ON t.identity = p.identity
        JOIN attachments AS x ON x.tag_id = t.id AND x.asset_id = p.asset_id AND x.end_reason IS NULL
        """;

    /// <summary>Columns of which no identity is kept, behind an asset ($1), $2 at most.</summary>
    public const string WithoutKey =
        "SELECT asset_id, register_tag FROM assets WHERE register_tag IS NOT NULL AND register_tag_key IS NULL AND asset_id > $1 ORDER BY asset_id LIMIT $2";

    /// <summary>Keeps identities ($3) of columns ($2) of assets ($1); a column that says something else by now is left alone.</summary>
    public const string SetKeys =
        """
        WITH held AS (
          SELECT a.asset_id, n.register_tag_key FROM unnest($1::text[], $2::text[], $3::text[]) AS n (asset_id, register_tag, register_tag_key)
          JOIN assets AS a ON a.asset_id = n.asset_id AND a.register_tag = n.register_tag
          ORDER BY a.asset_id FOR NO KEY UPDATE OF a)
        UPDATE assets AS a SET register_tag_key = h.register_tag_key FROM held AS h WHERE a.asset_id = h.asset_id
        """;
}
