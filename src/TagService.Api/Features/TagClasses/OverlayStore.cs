using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Domain.TagClasses;
using TagService.Storage;
using TagService.Storage.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Api.Features.TagClasses;

/// <summary>Changes overlays under the conditions of RFC 9110, and makes the change known in this process at once.</summary>
public sealed class OverlayStore(TagServiceDbContext database, RecommendationContextSource contexts, TimeProvider clock)
{
    /// <summary>Rows laid over the catalogue at most: every recommendation judges every class.</summary>
    public const int MaxOverlays = 500;

    private const int Attempts = 3;

    /// <summary>Writes an overlay.</summary>
    /// <returns>The class as it now is and whether it is new; or the problem.</returns>
    public async Task<(TagClassResponse? Answer, bool Created, ApiProblem? Problem)> PutAsync(
        HttpRequest request, TagClassOverlay overlay, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            var row = await FindAsync(overlay.Id, cancellationToken);
            var before = Shown(overlay.Id, row);
            if (Preconditions.Refusal(request, before is null ? null : CachedJson.Of(before).Tag) is { } refused)
                return (null, false, refused);
            if (row is null && await database.TagClassOverlays.CountAsync(cancellationToken) >= MaxOverlays)
                return (null, false, new(ProblemTypes.Conflict, $"There are {MaxOverlays} own and overlaid classes already, the most there can be; delete some first."));
            var now = StoredTime.Now(clock);
            if (row is null)
            {
                row = new() { Id = overlay.Id, Overlay = overlay, UpdatedAt = now };
                database.Add(row);
            }
            else
            {
                (row.Overlay, row.UpdatedAt) = (overlay, now);
            }

            if (await SavedAsync(cancellationToken))
                return (Shown(overlay.Id, row), before is null, null);
            if (Preconditions.Any(request) || attempt == Attempts)
                return (null, false, Preconditions.Overtaken());
        }
    }

    /// <summary>Takes an overlay or an own class away; null when that is done.</summary>
    public async Task<ApiProblem?> DeleteAsync(HttpRequest request, string id, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            var row = await FindAsync(id, cancellationToken);
            if (row is null && TagClassCatalogue.BuiltIn.Find(id) is null)
                return ApiProblem.NotFound("No tag class has this id; /v1/tag-classes lists them all.");
            if (Preconditions.Refusal(request, CachedJson.Of(Shown(id, row)).Tag) is { } refused)
                return refused;
            if (row is null)
                return new(ProblemTypes.Conflict, "A built-in class cannot be deleted, and nothing of yours is laid over this one.");
            database.Remove(row);
            if (await SavedAsync(cancellationToken))
                return null;
            if (Preconditions.Any(request) || attempt == Attempts)
                return Preconditions.Overtaken();
        }
    }

    private Task<TagClassOverlayRow?> FindAsync(string id, CancellationToken cancellationToken) =>
        database.TagClassOverlays.SingleOrDefaultAsync(o => o.Id == id, cancellationToken);

    private TagClassResponse? Shown(string id, TagClassOverlayRow? row) =>
        TagClassMapping.Of(id, row is null ? null : new(row.Overlay, row.UpdatedAt), DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));

    /// <summary>False when somebody else was quicker.</summary>
    private async Task<bool> SavedAsync(CancellationToken cancellationToken)
    {
        try
        {
            await database.SaveChangesAsync(cancellationToken);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
        {
            database.ChangeTracker.Clear();
            return false;
        }

        // What is written is written: should the look fail, the next one takes it over.
        await contexts.TryRefreshAsync(cancellationToken);
        return true;
    }
}
