namespace TagService.Storage.Claims;

/// <summary>The statements of the claim, in one place because their text is what makes it safe and is asserted by a test.</summary>
public static class ClaimSql
{
    /// <summary>
    /// Is there anything to do? Touches a few pages however many assets there are: the marks, an index that holds only assets without
    /// a key, and of the answers one step down the index for each different basis, of which there are about as many as materials.
    /// </summary>
    public const string Look =
        """
        WITH RECURSIVE basis AS (
          (SELECT engine_version, catalogue_version, material_id, measured_version FROM asset_recommendations
           ORDER BY engine_version, catalogue_version, material_id, measured_version LIMIT 1)
          UNION ALL
          SELECT n.engine_version, n.catalogue_version, n.material_id, n.measured_version
          FROM basis AS b
          CROSS JOIN LATERAL (
            SELECT r.engine_version, r.catalogue_version, r.material_id, r.measured_version FROM asset_recommendations AS r
            WHERE (r.engine_version, r.catalogue_version, r.material_id, r.measured_version)
              > (b.engine_version, b.catalogue_version, b.material_id, b.measured_version)
            ORDER BY r.engine_version, r.catalogue_version, r.material_id, r.measured_version LIMIT 1) AS n)
        SELECT 'marked', '', '', '' WHERE EXISTS (SELECT FROM recommendations_due)
        UNION ALL
        SELECT 'without-key', '', '', '' WHERE EXISTS (SELECT FROM (SELECT asset_id FROM assets WHERE input_key = '' ORDER BY asset_id LIMIT 1) AS a)
        UNION ALL
        SELECT engine_version, catalogue_version, material_id, measured_version FROM basis
        """;

    /// <summary>
    /// Step 1: lock a batch of marked assets, leaving out those another worker holds. The lock on the asset keeps other workers and
    /// writers of the same asset out, but not those who only refer to it; a writer who adds the mark again waits for it. The cursor
    /// ($1) makes one run one pass.
    /// </summary>
    public const string LockMarked =
        """
        SELECT a.asset_id
        FROM recommendations_due AS d JOIN assets AS a ON a.asset_id = d.asset_id
        WHERE d.asset_id > $1
        ORDER BY d.asset_id
        LIMIT $2
        FOR NO KEY UPDATE OF a SKIP LOCKED
        """;

    /// <summary>
    /// Step 2: look again, now that the rows are ours. Another worker may have finished a row between the snapshot of step 1
    /// and its lock; a new statement sees that (READ COMMITTED), step 1 could not.
    /// </summary>
    public const string ReadMarked =
        """
        SELECT a.asset_id, a.record::text, a.record_hash, a.input_key
        FROM assets AS a JOIN recommendations_due AS d ON d.asset_id = a.asset_id
        WHERE a.asset_id = ANY ($1)
        ORDER BY a.asset_id
        """;

    /// <summary>Step 1 for assets without a key.</summary>
    public const string LockWithoutKey =
        """
        SELECT asset_id
        FROM assets
        WHERE input_key = '' AND asset_id > $1
        ORDER BY asset_id
        LIMIT $2
        FOR NO KEY UPDATE SKIP LOCKED
        """;

    /// <summary>Step 2 for assets without a key.</summary>
    public const string ReadWithoutKey =
        """
        SELECT asset_id, record::text, record_hash, input_key
        FROM assets
        WHERE input_key = '' AND asset_id = ANY ($1)
        ORDER BY asset_id
        """;

    /// <summary>Step 1 for answers of one basis ($3 to $6).</summary>
    public const string LockAnswered =
        """
        SELECT a.asset_id
        FROM asset_recommendations AS r JOIN assets AS a ON a.asset_id = r.asset_id
        WHERE r.engine_version = $3 AND r.catalogue_version = $4 AND r.material_id = $5 AND r.measured_version = $6 AND r.asset_id > $1
        ORDER BY r.asset_id
        LIMIT $2
        FOR NO KEY UPDATE OF a SKIP LOCKED
        """;

    /// <summary>Step 2 for answers of one basis ($2 to $5).</summary>
    public const string ReadAnswered =
        """
        SELECT a.asset_id, a.record::text, a.record_hash, a.input_key
        FROM assets AS a JOIN asset_recommendations AS r ON r.asset_id = a.asset_id
        WHERE a.asset_id = ANY ($1) AND r.engine_version = $2 AND r.catalogue_version = $3 AND r.material_id = $4 AND r.measured_version = $5
        ORDER BY a.asset_id
        """;

    /// <summary>Step 3: keep the answers; writing the same answer twice changes nothing but its time.</summary>
    public const string Store =
        """
        INSERT INTO asset_recommendations AS r (
          asset_id, tag_class_id, attachment_method_id, p10_m, p50_m, p90_m, none_because, lifetime_cost_present_value, lifetime_cost_currency,
          engine_version, catalogue_version, material_id, measured_version, input_key, record_hash, computed_at)
        SELECT * FROM unnest(
          $1::text[], $2::text[], $3::text[], $4::float8[], $5::float8[], $6::float8[], $7::text[], $8::numeric[], $9::text[],
          $10::text[], $11::text[], $12::text[], $13::text[], $14::text[], $15::text[], $16::timestamptz[])
        ON CONFLICT (asset_id) DO UPDATE SET
          tag_class_id = excluded.tag_class_id, attachment_method_id = excluded.attachment_method_id,
          p10_m = excluded.p10_m, p50_m = excluded.p50_m, p90_m = excluded.p90_m, none_because = excluded.none_because,
          lifetime_cost_present_value = excluded.lifetime_cost_present_value, lifetime_cost_currency = excluded.lifetime_cost_currency,
          engine_version = excluded.engine_version, catalogue_version = excluded.catalogue_version, material_id = excluded.material_id,
          measured_version = excluded.measured_version, input_key = excluded.input_key, record_hash = excluded.record_hash,
          computed_at = excluded.computed_at
        """;

    /// <summary>Step 4: the marks are gone with it.</summary>
    public const string Unmark = "DELETE FROM recommendations_due WHERE asset_id = ANY ($1)";

    /// <summary>For assets without a key: it is known now.</summary>
    public const string KeepKeys =
        """
        UPDATE assets AS a SET input_key = k.input_key
        FROM unnest($1::text[], $2::text[]) AS k (asset_id, input_key)
        WHERE a.asset_id = k.asset_id AND a.input_key = ''
        """;
}
