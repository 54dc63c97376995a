using TagService.Api.Http.Problems;
using TagService.Domain.Fitting;
using TagService.Domain.Recommendations;
using TagService.Storage;
using TagService.Storage.Fitting;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>One page of a worklist before it is written.</summary>
/// <param name="Plans">Assets of the page with their plans.</param>
/// <param name="Reserved">Identities reserved for them.</param>
/// <param name="Refusal">Why some have none although they were asked for.</param>
/// <param name="Places">The tree of locations.</param>
/// <param name="Next">Where the next page begins; null on the last one.</param>
internal sealed record Worklist(
    IReadOnlyList<(AssetRow Asset, FittingPlan Plan)> Plans,
    IReadOnlyDictionary<string, ReservedIdentityRow> Reserved,
    string? Refusal,
    KnownPlaces Places,
    WorklistPosition? Next);

/// <summary>Reads assets without a tag and plans their fitting.</summary>
internal sealed class WorklistBuilder(TagServiceDbContext database, ReservedIdentities reserved)
{
    // Where few assets of many get the class that is asked for, a page may come out short rather than late.
    private const int MostLookedAt = 2000;

    /// <summary>The page, or the problem with what was asked.</summary>
    public async Task<(Worklist? Page, ApiProblem? Problem)> BuildAsync(WorklistQuery query, RecommendationContext context, CancellationToken cancellationToken)
    {
        var places = await KnownPlaces.ReadAsync(database, cancellationToken);
        if (query.Under is { } under && places.Find(under) is null)
            return (null, WorklistQuery.Refuse("under", under, "No location has this id, name or alias, or more than one has.", "an id, or a name or alias of one location, of /v1/locations"));
        var names = await NamesAsync(query, places, cancellationToken);
        if (names is { Count: 0 } && query.Location is { } location && places.Find(location) is null)
            return (null, WorklistQuery.Refuse("location", location, await NothingThereAsync(location, cancellationToken), "id, name or alias of one location of /v1/locations, or the register's words for a place of its assets"));
        var plans = new List<(AssetRow Asset, FittingPlan Plan)>();
        var position = query.After;
        var lookedAt = 0;
        var more = true;
        while (more && plans.Count < query.Limit && lookedAt < MostLookedAt)
        {
            // One more than wanted shows whether there is a next page.
            var wanted = query.Limit - plans.Count;
            var chunk = await database.PageUnfittedAsync(names, position, wanted + 1, cancellationToken);
            more = chunk.Count > wanted;
            foreach (var stored in chunk.Take(wanted))
            {
                lookedAt++;
                position = new(stored.Asset.LocationName, stored.Asset.AssetId);
                var plan = FittingPlan.For(stored.Asset.Record, context);
                if (query.TagClass is null || (plan as PlannedFitting)?.TagClass.Id == query.TagClass)
                    plans.Add((stored.Asset, plan));
            }
        }

        string[] fitted = [.. plans.Where(p => p.Plan is PlannedFitting).Select(p => p.Asset.AssetId)];
        var outcome = query.Reserve
            ? await reserved.ReserveAsync(fitted, additional: false, cancellationToken)
            : new(await reserved.FindAsync(fitted, additional: false, cancellationToken), null);
        return (new(plans, outcome.ByAsset, outcome.Refusal, places, more ? position : null), null);
    }

    // A mistyped place must not look like a place where all is done.
    private async Task<string> NothingThereAsync(string location, CancellationToken cancellationToken)
    {
        var near = Http.Json.NearestName.Of(location, await database.LocationNamesAsync(static _ => true, cancellationToken));
        return $"No location has this id, name or alias, and no asset's register says so{(near is null ? "" : $"; {near} is the nearest")}.";
    }

    /// <summary>The register's words that are wanted; null: all.</summary>
    private async Task<IReadOnlyCollection<string>?> NamesAsync(WorklistQuery query, KnownPlaces places, CancellationToken cancellationToken)
    {
        if (query.Location is null && query.Under is null)
            return null;
        var location = query.Location is null ? null : places.Find(query.Location);
        var subtree = query.Under is null ? null : places.Subtree(places.Find(query.Under)!);
        return await database.LocationNamesAsync(IsWanted, cancellationToken);

        bool IsWanted(string words)
        {
            var place = places.Find(words);
            return (query.Location is null || (location is not null && place == location) || WorklistQueries.SameWords(words, query.Location))
                && (subtree is null || (place is not null && subtree.Contains(place)));
        }
    }
}
