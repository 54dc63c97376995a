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

    /// <summary>Takes findings of attachments back.</summary>
    public const string TakeBack = "DELETE FROM range_measurements WHERE attachment_id = ANY ($1) RETURNING tag_class_id, material_id";

    /// <summary>Adds findings of attachments.</summary>
    public const string InsertOfAttachments =
        """
        INSERT INTO range_measurements (attachment_id, tag_class_id, material_id, measurement, recorded_at)
        SELECT attachment_id, class_id, material_id, finding::jsonb, $5
        FROM unnest($1::uuid[], $2::text[], $3::text[], $4::text[]) AS m (attachment_id, class_id, material_id, finding)
        """;

    /// <summary>Marks pairs whose posterior is to be computed.</summary>
    public const string Mark =
        """
        INSERT INTO range_calibrations_due (tag_class_id, material_id)
        SELECT class_id, material_id FROM unnest($1::text[], $2::text[]) AS p (class_id, material_id)
        """;

    /// <summary>
    /// Takes all marks of one pair whose class is known ($1). Marks of transactions that are not committed yet are not seen and stay for
    /// the next look, which then sees their findings too.
    /// </summary>
    public const string TakeMarks =
        """
        DELETE FROM range_calibrations_due AS d
        USING (SELECT tag_class_id, material_id FROM range_calibrations_due WHERE tag_class_id = ANY ($1) ORDER BY id LIMIT 1) AS first
        WHERE d.tag_class_id = first.tag_class_id AND d.material_id = first.material_id
        RETURNING d.tag_class_id, d.material_id
        """;

    /// <summary>Is anything marked at all?</summary>
    public const string AnyMark = "SELECT EXISTS (SELECT FROM range_calibrations_due)";

    /// <summary>Forgets the posterior of a pair whose last finding is gone.</summary>
    public const string Forget = "DELETE FROM range_calibrations WHERE tag_class_id = $1 AND material_id = $2";

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
          tag_class_id, material_id, observations, mean_shift_db, sigma_db, measured, answers_at, silent_at, failed_check, answers_between, basis, computed_at)
        VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)
        ON CONFLICT (tag_class_id, material_id) DO UPDATE SET
          observations = excluded.observations, mean_shift_db = excluded.mean_shift_db, sigma_db = excluded.sigma_db,
          measured = excluded.measured, answers_at = excluded.answers_at, silent_at = excluded.silent_at,
          failed_check = excluded.failed_check, answers_between = excluded.answers_between, basis = excluded.basis, computed_at = excluded.computed_at
        """;
}
