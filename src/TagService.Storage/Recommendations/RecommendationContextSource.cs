using System.Net.Sockets;
using Microsoft.Extensions.Logging;
using Npgsql;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Storage.Measurements;

namespace TagService.Storage.Recommendations;

/// <summary>
/// The catalogue that answers rest on, kept in memory: recommendations never wait for the database. Writers refresh it at once,
/// other processes when they next look; without a database the last one stays in use, at first the built-in one.
/// </summary>
public sealed class RecommendationContextSource(
    NpgsqlDataSource dataSource, TimeProvider clock, ILogger<RecommendationContextSource> logger) : IDisposable
{
    private readonly SemaphoreSlim _one = new(1, 1);
    private readonly Dictionary<(string TagClassId, string MaterialId), (string RowVersion, PairCalibration Pair)> _recomputed = [];
    private CatalogueRows _rows = CatalogueRows.None;
    private volatile CatalogueSnapshot _snapshot = Build(CatalogueRows.None, [], Today(clock));
    private bool _failing;

    /// <summary>The catalogue as last seen.</summary>
    public CatalogueSnapshot Snapshot => _snapshot;

    /// <summary>What an answer given now rests on.</summary>
    public RecommendationContext Current => _snapshot.Context.On(Today(clock));

    /// <summary>Looks whether anything changed, and takes it over.</summary>
    /// <exception cref="NpgsqlException">The database failed; the last catalogue stays in use.</exception>
    public async Task RefreshAsync(CancellationToken cancellationToken)
    {
        await _one.WaitAsync(cancellationToken);
        try
        {
            var day = Today(clock);
            try
            {
                await ReadAsync(day, cancellationToken);
            }
            finally
            {
                // Quotes end at midnight, with or without a database.
                if (_snapshot.Day != day)
                    _snapshot = Build(_rows, Calibrations(), day);
            }
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>The same; a failing database is logged when it begins and when it ends.</summary>
    public async Task TryRefreshAsync(CancellationToken cancellationToken)
    {
        try
        {
            await RefreshAsync(cancellationToken);
            if (_failing)
                logger.LogInformation("Own tag classes and measured ranges are read again");
            _failing = false;
        }
        catch (Exception e) when (e is NpgsqlException or SocketException or TimeoutException or IOException)
        {
            if (!_failing)
                logger.LogWarning("Own tag classes and measured ranges cannot be read ({Reason}); the last known ones stay in use", Reason(e));
            _failing = true;
        }
    }

    /// <inheritdoc />
    public void Dispose() => _one.Dispose();

    private async Task ReadAsync(DateOnly day, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        var version = await CatalogueReader.ReadVersionAsync(connection, cancellationToken);
        if (version == _rows.Version)
            return;
        var rows = await CatalogueReader.ReadAsync(connection, version, cancellationToken);
        await RecomputeAsync(connection, rows, day, cancellationToken);
        foreach (var id in rows.Unreadable.Except(_rows.Unreadable, StringComparer.Ordinal))
            logger.LogWarning("The overlay of tag class {TagClassId} cannot be used by this program version and is left out", id);
        _rows = rows;
        _snapshot = Build(rows, Calibrations(), day);
    }

    /// <summary>
    /// Posteriors computed with other figures of the class or by another engine. They are kept in memory only: two program
    /// versions side by side would overwrite each other's for ever.
    /// </summary>
    private async Task RecomputeAsync(NpgsqlConnection connection, CatalogueRows rows, DateOnly day, CancellationToken cancellationToken)
    {
        var classes = TagClassOverlay.Apply(TagClassCatalogue.BuiltIn.All, [.. rows.Overlays.Select(o => o.Overlay)], day).ToDictionary(c => c.Id, StringComparer.Ordinal);
        var stale = new Dictionary<(string, string), (TagClass TagClass, string RowVersion)>();
        foreach (var (pair, rowVersion) in rows.Calibrations)
        {
            if (!classes.TryGetValue(pair.TagClassId, out var tagClass))
                continue;
            var basis = PairCalibration.BasisOf(tagClass);
            if (pair.Basis == basis)
                _recomputed.Remove((pair.TagClassId, pair.MaterialId));
            else if (!_recomputed.TryGetValue((pair.TagClassId, pair.MaterialId), out var known) || known.RowVersion != rowVersion || known.Pair.Basis != basis)
                stale.Add((pair.TagClassId, pair.MaterialId), (tagClass, rowVersion));
        }

        if (stale.Count == 0)
            return;
        foreach (var (pair, findings) in await Findings.ReadAsync(connection, stale.Keys, cancellationToken))
            _recomputed[pair] = (stale[pair].RowVersion, PairCalibration.Of(stale[pair].TagClass, pair.MaterialId, findings));
    }

    private IReadOnlyList<PairCalibration> Calibrations() =>
        [.. _rows.Calibrations.Select(c => _recomputed.TryGetValue((c.Pair.TagClassId, c.Pair.MaterialId), out var anew) ? anew.Pair : c.Pair)];

    private static CatalogueSnapshot Build(CatalogueRows rows, IReadOnlyList<PairCalibration> pairs, DateOnly day)
    {
        var classes = TagClassOverlay.Apply(TagClassCatalogue.BuiltIn.All, [.. rows.Overlays.Select(o => o.Overlay)], day);
        var ids = classes.Select(c => c.Id).ToHashSet(StringComparer.Ordinal);
        PairCalibration[] used = [.. pairs.Where(p => ids.Contains(p.TagClassId))];
        var context = rows.Overlays.Count == 0 && used.Length == 0
            ? RecommendationContext.BuiltIn.On(day)
            : new(
                classes, TagClassCatalogue.VersionOf(classes),
                new(used.Select(p => KeyValuePair.Create((p.TagClassId, p.MaterialId), p.Posterior))), day);
        return new(context, rows.Overlays.ToDictionary(o => o.Overlay.Id, StringComparer.Ordinal), used) { Day = day };
    }

    private static DateOnly Today(TimeProvider clock) => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    private static string Reason(Exception e) => e is PostgresException p ? p.MessageText : (e.InnerException ?? e).Message;
}
