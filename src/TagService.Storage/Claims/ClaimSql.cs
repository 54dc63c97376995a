namespace TagService.Storage.Claims;

/// <summary>The statements of the claim, in one place because their text is what makes it safe and is asserted by a test.</summary>
public static class ClaimSql
{
    // Missing, or computed from another record, by another engine or from another catalogue.
    private const string Stale =
        """
        (r.asset_id IS NULL OR r.record_hash <> a.record_hash
               OR r.engine_version <> $1 OR r.catalogue_version <> $2)
        """;

    /// <summary>
    /// Step 1: lock a batch of stale assets, leaving out those another worker holds. The weaker lock keeps other workers and
    /// writers of the same asset out, but not those who only refer to the asset. The cursor ($3) makes one run one pass.
    /// </summary>
    public const string Lock =
        $"""
        SELECT a.asset_id
        FROM assets AS a
        LEFT JOIN asset_recommendations AS r ON r.asset_id = a.asset_id
        WHERE a.asset_id > $3
          AND {Stale}
        ORDER BY a.asset_id
        LIMIT $4
        FOR NO KEY UPDATE OF a SKIP LOCKED
        """;

    /// <summary>
    /// Step 2: look again, now that the rows are ours. Another worker may have finished a row between the snapshot of step 1
    /// and its lock; a new statement sees that (READ COMMITTED), step 1 could not.
    /// </summary>
    public const string Read =
        $"""
        SELECT a.asset_id, a.record::text, a.record_hash
        FROM assets AS a
        LEFT JOIN asset_recommendations AS r ON r.asset_id = a.asset_id
        WHERE a.asset_id = ANY ($3)
          AND {Stale}
        ORDER BY a.asset_id
        """;

    /// <summary>Step 3: keep the answers; writing the same answer twice changes nothing but its time.</summary>
    public const string Store =
        """
        INSERT INTO asset_recommendations AS r (
          asset_id, tag_class_id, attachment_method_id, p10_m, p50_m, p90_m, none_because,
          lifetime_cost_present_value, lifetime_cost_currency, engine_version, catalogue_version, record_hash, computed_at)
        SELECT * FROM unnest(
          $1::text[], $2::text[], $3::text[], $4::float8[], $5::float8[], $6::float8[], $7::text[],
          $8::numeric[], $9::text[], $10::text[], $11::text[], $12::text[], $13::timestamptz[])
        ON CONFLICT (asset_id) DO UPDATE SET
          tag_class_id = excluded.tag_class_id, attachment_method_id = excluded.attachment_method_id,
          p10_m = excluded.p10_m, p50_m = excluded.p50_m, p90_m = excluded.p90_m, none_because = excluded.none_because,
          lifetime_cost_present_value = excluded.lifetime_cost_present_value,
          lifetime_cost_currency = excluded.lifetime_cost_currency, engine_version = excluded.engine_version,
          catalogue_version = excluded.catalogue_version, record_hash = excluded.record_hash, computed_at = excluded.computed_at
        """;
}
