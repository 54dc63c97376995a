namespace TagService.Storage.Fitting;

/// <summary>The statements about reserved identities.</summary>
internal static class ReservationSql
{
    /// <summary>Whoever reserves for an asset holds its row until the commit; always in the order of the ids, so that two never wait in a ring.</summary>
    public const string LockAssets = "SELECT asset_id AS \"Value\" FROM assets WHERE asset_id = ANY ({0}) ORDER BY asset_id FOR NO KEY UPDATE";

    /// <summary>Reservations that an attachment has used since; one taken back as a mistake does not count.</summary>
    public const string NewlyUsed =
        """
        SELECT r.identity AS identity, min(a.id::text)::uuid AS attachment_id
        FROM reserved_identities AS r
        JOIN tags AS t ON t.identity = r.identity
        JOIN attachments AS a ON a.tag_id = t.id AND NOT a.is_void
        WHERE r.asset_id = ANY ({0}) AND r.attachment_id IS NULL
        GROUP BY r.identity
        """;

    /// <summary>Identities that a tag has or had, or that are reserved: a numbering rule may begin among older numbers.</summary>
    public const string Taken =
        """
        SELECT t.identity AS "Value" FROM tags AS t
        WHERE t.identity = ANY ({0}) AND EXISTS (SELECT FROM attachments AS a WHERE a.tag_id = t.id AND NOT a.is_void)
        UNION
        SELECT r.identity FROM reserved_identities AS r WHERE r.identity = ANY ({0})
        """;
}
