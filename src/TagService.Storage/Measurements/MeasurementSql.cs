namespace TagService.Storage.Measurements;

/// <summary>The statements that keep measured ranges and what they teach.</summary>
internal static class MeasurementSql
{
    /// <summary>One request at a time stores measurements: each computes posteriors from all that is committed before it.</summary>
    public const string Lock = "SELECT pg_advisory_xact_lock(hashtext('range_measurements'))";

    /// <summary>Takes the caller's key; no row when it is taken already.</summary>
    public const string TakeKey =
        """
        INSERT INTO range_measurement_batches (idempotency_key, content_hash, measurements, recorded_at)
        VALUES ($1, $2, $3, $4) ON CONFLICT (idempotency_key) DO NOTHING
        """;

    /// <summary>What the key was taken for.</summary>
    public const string ReadKey = "SELECT content_hash FROM range_measurement_batches WHERE idempotency_key = $1";

    /// <summary>Adds the findings.</summary>
    public const string Insert =
        """
        INSERT INTO range_measurements (tag_class_id, material_id, measurement, recorded_at)
        SELECT class_id, material_id, finding::jsonb, $4 FROM unnest($1::text[], $2::text[], $3::text[]) AS m (class_id, material_id, finding)
        """;

    /// <summary>The latest findings of some pairs: enough for any posterior, and bounded.</summary>
    public const string Findings =
        """
        SELECT p.class_id, p.material_id, m.measurement::text
        FROM unnest($1::text[], $2::text[]) AS p (class_id, material_id)
        CROSS JOIN LATERAL (
          SELECT measurement, id FROM range_measurements
          WHERE tag_class_id = p.class_id AND material_id = p.material_id ORDER BY id DESC LIMIT 5000) AS m
        ORDER BY p.class_id, p.material_id, m.id
        """;

    /// <summary>Keeps the posterior of one pair.</summary>
    public const string Keep =
        """
        INSERT INTO range_calibrations AS c (
          tag_class_id, material_id, observations, mean_shift_db, sigma_db, measured, answers_at, silent_at, failed_check, basis, computed_at)
        VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)
        ON CONFLICT (tag_class_id, material_id) DO UPDATE SET
          observations = excluded.observations, mean_shift_db = excluded.mean_shift_db, sigma_db = excluded.sigma_db,
          measured = excluded.measured, answers_at = excluded.answers_at, silent_at = excluded.silent_at,
          failed_check = excluded.failed_check, basis = excluded.basis, computed_at = excluded.computed_at
        """;
}
