namespace TagService.Benchmarks.Assets;

/// <summary>Many assets with answers as the worker leaves them. Invented.</summary>
internal static class IdleRows
{
    /// <summary>Different materials, each with measured ranges of its own: as many as a large fleet may have.</summary>
    public const int Materials = 40;

    public static string Fill(int count) => FormattableString.Invariant(
        $$"""
        INSERT INTO assets (asset_id, record, source, first_seen_at, updated_at, content_hash, input_key)
        SELECT 'A-' || lpad(i::text, 8, '0'), jsonb_build_object('assetId', 'A-' || lpad(i::text, 8, '0'), 'category', 'kind ' || i % 300, 'description', repeat('x', 300)),
          'benchmark', now(), now(), decode(md5(i::text), 'hex'), md5(i::text)
        FROM generate_series(1, {{count}}) AS i;
        INSERT INTO asset_recommendations (asset_id, tag_class_id, attachment_method_id, engine_version, catalogue_version, material_id, measured_version, input_key, record_hash, computed_at)
        SELECT 'A-' || lpad(i::text, 8, '0'), 'class', 'screws', '2.0123abcd', '0123abcd', 'material-' || i % {{Materials}}, md5((i % {{Materials}})::text), md5(i::text), md5(i::text), now()
        FROM generate_series(1, {{count}}) AS i
        """);
}
