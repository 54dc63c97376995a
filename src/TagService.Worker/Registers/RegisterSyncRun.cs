using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage.Registers;
using TagService.Storage.Tables;

namespace TagService.Worker.Registers;

/// <summary>
/// Writes the pages of one run. Of rows that the source gave exactly like that before only their being there is noted; all others are
/// mapped and laid over the stored asset. The first row of an asset counts, a later one of the same run is refused: so a list that names an asset
/// twice changes nothing when it is read again.
/// </summary>
internal sealed class RegisterSyncRun(RegisterSyncClaim claim, RowMapper mapper, RowHash rowHash, RegisterSyncWriter writer, TimeProvider clock)
{
    private readonly HashSet<RegisterColumns> _columnsSeen = new(ReferenceEqualityComparer.Instance);
    private HashSet<string>? _missingSources;
    private Progress _written = new(claim.Position, claim.Refused, claim.Notes);
    private Progress? _committing;

    /// <summary>What has been noted so far.</summary>
    public RegisterSyncNotes Notes => _written.Notes;

    /// <summary>Writes a group of pages in one transaction; may be called again with the same group when that failed.</summary>
    /// <exception cref="RegisterSyncLostException">The run is no longer this worker's.</exception>
    public async Task WriteAsync(PageGroup group, CancellationToken cancellationToken)
    {
        var (rows, repeated) = Different(group.Rows);
        await using var page = await writer.BeginPageAsync(claim, cancellationToken);
        if (_committing is { } committing && page.Before == committing.Position && page.Before != _written.Position)
        {
            // The commit of the attempt before was kept, only its answer was lost.
            _written = committing;
            return;
        }

        var known = claim.IsFullPass || rows.Count == 0 ? [] : (await page.KnownAsync([.. rows.Select(r => r.Hash)], cancellationToken)).ToHashSet();

        var refused = group.Unreadable.Select(u => new RefusedRow(u.Place, null, u.Reason, [], u.OriginalText)).ToList();
        long withoutKey = refused.Count;
        var tally = new NotUnderstoodTally();
        var candidates = new List<(RawRow Row, byte[] Hash, RowMapping Mapping, string AssetId)>();
        var today = DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);
        var unknown = rows.Where((_, i) => !known.Contains(i)).ToArray();
        var mappings = unknown.AsParallel().AsOrdered().Select(r => mapper.Map(r.Row.Row, today)).ToArray();
        foreach (var ((row, hash), mapping) in unknown.Zip(mappings))
        {
            tally.Add(mapping);
            if (AssetIdOf(mapping) is { } id)
            {
                candidates.Add((row, hash, mapping, id));
                continue;
            }

            refused.Add(Refusal(row, (RowRefusal)mapping));
            withoutKey++;
        }

        if (candidates.Count > 0)
            await WriteAsync(page, candidates, refused, cancellationToken);
        NoteColumns(rows.Select(r => r.Row.Row.Columns));
        var notes = Notes.Plus(group, tally, group.End is null || claim.Rows > 0 ? [] : _missingSources ?? [], withoutKey);
        if (group.End is { } end)
            notes = notes with { IsCompleteList = end.IsCompleteList && notes.Doubts.Count == 0 };
        _committing = new(group.After.Token, _written.Refused + refused.Count, notes);
        await page.CommitAsync(new(group.After.Token, group.Rows.Count, repeated, group.Announced, refused, notes), _written.Refused, cancellationToken);
        _written = _committing;
    }

    private static string? AssetIdOf(RowMapping mapping) => mapping switch
    {
        MappedAsset asset => asset.AssetId,
        RowRefusal refusal => refusal.AssetId,
        _ => null,
    };

    private static RefusedRow Refusal(RawRow row, RowRefusal refusal) => new(
        row.Place, refusal.AssetId, string.Join(" ", refusal.Problems.Where(p => p.Kind == RowProblemKind.Refuses).Select(p => p.Detail)),
        [.. refusal.Problems.Select(p => SyncNotes.Of(p))], row.OriginalText);

    // Rows of JSON have not all the same members: a source is missing when no row of the run has it.
    private void NoteColumns(IEnumerable<RegisterColumns> columns)
    {
        foreach (var shape in columns.Where(_columnsSeen.Add))
        {
            if (_missingSources is null)
                _missingSources = [.. mapper.MissingSources(shape)];
            else
                _missingSources.IntersectWith(mapper.MissingSources(shape));
        }
    }

    private (List<(RawRow Row, byte[] Hash)> Rows, long Repeated) Different(IReadOnlyList<RawRow> all)
    {
        var rows = new List<(RawRow, byte[])>(all.Count);
        var seen = new HashSet<(long, long)>();
        foreach (var row in all.Where(r => r.Repeat != RowRepeat.Same))
        {
            var hash = rowHash.Of(row.Row);
            if (seen.Add((BitConverter.ToInt64(hash), BitConverter.ToInt64(hash, sizeof(long)))))
                rows.Add((row, hash));
        }

        return (rows, all.Count - rows.Count);
    }

    private async Task WriteAsync(
        RegisterPageWriter page, List<(RawRow Row, byte[] Hash, RowMapping Mapping, string AssetId)> candidates, List<RefusedRow> refused, CancellationToken cancellationToken)
    {
        var first = await page.MeetAsync(candidates.Select(c => c.AssetId).ToHashSet(StringComparer.Ordinal), cancellationToken);
        var taken = new HashSet<string>(StringComparer.Ordinal);
        var mapped = new List<(RawRow Row, byte[] Hash, MappedAsset Asset)>();
        foreach (var (row, hash, mapping, id) in candidates)
        {
            if (!first.Contains(id) || !taken.Add(id))
                refused.Add(new(row.Place, id, "The asset came before in this run; its first row counts.", [], row.OriginalText));
            else if (mapping is RowRefusal refusal)
                refused.Add(Refusal(row, refusal));
            else
                mapped.Add((row, hash, (MappedAsset)mapping));
        }

        var stored = await page.HoldAssetsAsync([.. mapped.Select(m => m.Asset.AssetId)], cancellationToken);
        var assets = new List<ListedAsset>(mapped.Count);
        var contents = mapped.AsParallel().AsOrdered().Select(m =>
        {
            var before = stored.GetValueOrDefault(m.Asset.AssetId);
            var content = RowOverlay.Of(before?.Content, before is { WasListed: false } && before.Source == claim.SourceName, m.Asset);
            return (Content: content, Fault: RowOverlay.FaultOf(content));
        }).ToArray();
        foreach (var ((row, hash, asset), (content, fault)) in mapped.Zip(contents))
        {
            if (fault is not null)
                refused.Add(new(row.Place, asset.AssetId, fault, [], row.OriginalText));
            else
                assets.Add(new(content, hash));
        }

        await page.WriteAsync(assets, cancellationToken);
    }

    private sealed record Progress(string? Position, long Refused, RegisterSyncNotes Notes);
}
