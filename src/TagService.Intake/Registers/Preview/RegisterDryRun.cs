using Microsoft.EntityFrameworkCore;
using TagService.Domain.Registers;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Tables;

namespace TagService.Intake.Registers.Preview;

/// <summary>Says what a run would do with rows, and does nothing: the mirror is only read.</summary>
public sealed class RegisterDryRun(TagServiceDbContext database, TimeProvider clock)
{
    private const int AssetsAtATime = 1000;

    /// <summary>Maps rows and compares them with the mirror.</summary>
    /// <param name="sample">The rows.</param>
    /// <param name="mapper">The mapping.</param>
    /// <param name="sourceName">Name of the source, for what it listed before; null: it has none yet.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<RegisterPreview> RunAsync(RegisterSample sample, RowMapper mapper, string? sourceName, CancellationToken cancellationToken)
    {
        var mappings = Map(sample, mapper, DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));
        var stored = await StoredAsync([.. mappings.Select(IdOf).OfType<string>().Where(IsStorable).Distinct(StringComparer.Ordinal)], sourceName, cancellationToken);
        return Compare(sample, mapper, mappings, stored);
    }

    /// <summary>The same without a mirror: every asset is new.</summary>
    /// <param name="sample">The rows.</param>
    /// <param name="mapper">The mapping.</param>
    /// <param name="asOf">Day that dates are compared with.</param>
    public static RegisterPreview OnEmptyMirror(RegisterSample sample, RowMapper mapper, DateOnly asOf) => Compare(sample, mapper, Map(sample, mapper, asOf), []);

    private static RowMapping[] Map(RegisterSample sample, RowMapper mapper, DateOnly asOf) =>
        [.. sample.Rows.Where(r => r.Repeat != RowRepeat.Same).Select(r => mapper.Map(r.Row, asOf))];

    private static RegisterPreview Compare(
        RegisterSample sample, RowMapper mapper, RowMapping[] mappings, Dictionary<string, (AssetToLoad Content, bool Unlisted)> stored)
    {
        var tally = new NotUnderstoodTally();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var next = 0;
        var rows = new List<PreviewedRow>(sample.Rows.Count + sample.Unreadable.Count);
        foreach (var row in sample.Rows)
        {
            if (row.Repeat == RowRepeat.Same)
            {
                rows.Add(new(row.Place, null, PreviewOutcome.Repeated, null, [], [], null));
                continue;
            }

            var mapping = mappings[next++];
            tally.Add(mapping);
            // The first row of an asset counts, as in a run.
            rows.Add(IdOf(mapping) is { } id && !seen.Add(id)
                ? new(row.Place, id, PreviewOutcome.Refused, "The asset came before; its first row counts.", [], mapping.Problems, row.OriginalText)
                : Of(row, mapping, stored));
        }

        rows.AddRange(sample.Unreadable.Select(u => new PreviewedRow(u.Place, null, PreviewOutcome.Refused, u.Reason, [], [], u.OriginalText)));
        return new(rows, tally, Missing(sample, mapper));
    }

    // The database has no NUL characters, so it has no such asset either; the row is refused.
    private static bool IsStorable(string id) => !id.Contains('\0', StringComparison.Ordinal);

    private static string? IdOf(RowMapping mapping) => mapping switch
    {
        MappedAsset asset => asset.AssetId,
        RowRefusal refusal => refusal.AssetId,
        _ => null,
    };

    private static PreviewedRow Of(RawRow row, RowMapping mapping, Dictionary<string, (AssetToLoad Content, bool Unlisted)> stored)
    {
        if (mapping is not MappedAsset asset)
        {
            var reasons = mapping.Problems.Where(p => p.Kind == RowProblemKind.Refuses).Select(p => p.Detail);
            return new(row.Place, IdOf(mapping), PreviewOutcome.Refused, string.Join(" ", reasons), [], mapping.Problems, row.OriginalText);
        }

        var known = stored.TryGetValue(asset.AssetId, out var before);
        var after = RowOverlay.Of(known ? before.Content : null, before.Unlisted, asset);
        if (RowOverlay.FaultOf(after) is { } fault)
            return new(row.Place, asset.AssetId, PreviewOutcome.Refused, fault, [], asset.Problems, row.OriginalText);
        IReadOnlyList<FieldChange> changes =
        [
            .. asset.ChangesTo(known ? before.Content.Record : null),
            .. Change(MappingTargets.Location, before.Content?.LocationName, after.LocationName),
            .. Change(MappingTargets.Tag, before.Content?.RegisterTag, after.RegisterTag),
            .. Change(MappingTargets.Retired, YesNo(before.Content), YesNo(after)),
        ];
        return new(
            row.Place, asset.AssetId, !known ? PreviewOutcome.Created : changes.Count > 0 ? PreviewOutcome.Changed : PreviewOutcome.Unchanged, null, changes, asset.Problems, null);
    }

    private static IEnumerable<FieldChange> Change(MappingTarget target, string? before, string? after) =>
        before == after ? [] : [new(target.Pointer, before, after)];

    // In service is what an asset is unless somebody says otherwise.
    private static string? YesNo(AssetToLoad? asset) => asset?.Retired is null ? null : "true";

    // Rows of JSON have not all the same members: a source is missing when no row has it.
    private static string[] Missing(RegisterSample sample, RowMapper mapper)
    {
        HashSet<string>? missing = null;
        foreach (var columns in sample.Rows.Select(r => r.Row.Columns).Distinct())
        {
            if (missing is null)
                missing = [.. mapper.MissingSources(columns)];
            else
                missing.IntersectWith(mapper.MissingSources(columns));
        }

        return missing is null ? [] : [.. missing.Order(StringComparer.Ordinal)];
    }

    private async Task<Dictionary<string, (AssetToLoad Content, bool Unlisted)>> StoredAsync(string[] ids, string? sourceName, CancellationToken cancellationToken)
    {
        var stored = new Dictionary<string, (AssetToLoad, bool)>(StringComparer.Ordinal);
        foreach (var some in ids.Chunk(AssetsAtATime))
        {
            var listed = sourceName is null
                ? []
                : await database.RegisterRows.Where(r => r.SourceName == sourceName && some.Contains(r.AssetId)).Select(r => r.AssetId).ToHashSetAsync(cancellationToken);
            foreach (AssetRow row in await database.Assets.AsNoTracking().Where(a => some.Contains(a.AssetId)).ToListAsync(cancellationToken))
                stored[row.AssetId] = (row.ToContent(), row.Source == sourceName && !listed.Contains(row.AssetId));
        }

        return stored;
    }
}
