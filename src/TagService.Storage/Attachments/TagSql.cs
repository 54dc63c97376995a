namespace TagService.Storage.Attachments;

/// <summary>
/// The statements that find, make and lock tags. Whoever changes attachments of a tag holds its row until the commit. The order is
/// always the same: assets by id, known tags by number, new tags by identity; so two writers seldom wait for each other in a ring,
/// and where they do the server ends one of them, which is tried again.
/// </summary>
internal static class TagSql
{
    /// <summary>
    /// Assets whose earlier attachment is to be ended, so that nobody else ends it meanwhile, and that of a single start, so that its
    /// answer can name the other tags there. A line of a batch that ends nothing holds no asset and needs none: several tags an asset
    /// are allowed, so all that its start depends on is its own tag's history, which is held, and that the asset is there, which the
    /// foreign key sees to. Who ends an earlier attachment at the same time sees the new one or not, as if it had come before or after.
    /// </summary>
    public const string LockAssets = "SELECT asset_id FROM assets WHERE asset_id = ANY ($1) ORDER BY asset_id FOR NO KEY UPDATE";

    /// <summary>Tags that are known, and those open on the assets.</summary>
    public const string LockKnown =
        """
        SELECT id, identity FROM tags
        WHERE id IN (
          SELECT id FROM tags WHERE identity = ANY ($1)
          UNION
          SELECT tag_id FROM attachments WHERE asset_id = ANY ($2) AND end_reason IS NULL)
        ORDER BY id FOR NO KEY UPDATE
        """;

    /// <summary>Makes those that are new. One that somebody else is just making is waited for, and then not among the rows returned.</summary>
    public const string Insert =
        """
        INSERT INTO tags (identity, epc_hex, scheme, tid_hex, first_recorded_at)
        SELECT identity, epc_hex, scheme, tid_hex, $5 FROM unnest($1::text[], $2::text[], $3::text[], $4::text[]) AS n (identity, epc_hex, scheme, tid_hex)
        ORDER BY identity COLLATE "C"
        ON CONFLICT (identity) DO NOTHING RETURNING id, identity
        """;

    /// <summary>Fills in what is seen for the first time.</summary>
    public const string Complete =
        """
        UPDATE tags AS t SET epc_hex = coalesce(t.epc_hex, n.epc_hex), scheme = coalesce(t.scheme, n.scheme), tid_hex = coalesce(t.tid_hex, n.tid_hex)
        FROM unnest($1::text[], $2::text[], $3::text[], $4::text[]) AS n (identity, epc_hex, scheme, tid_hex)
        WHERE t.identity = n.identity
          AND ((t.epc_hex IS NULL AND n.epc_hex IS NOT NULL) OR (t.scheme IS NULL AND n.scheme IS NOT NULL) OR (t.tid_hex IS NULL AND n.tid_hex IS NOT NULL))
        """;
}
