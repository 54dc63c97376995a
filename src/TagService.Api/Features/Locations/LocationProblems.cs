using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Places;
using TagService.Storage;
using TagService.Storage.Places;

namespace TagService.Api.Features.Locations;

/// <summary>What makes a readable location unusable, or keeps one from being deleted.</summary>
internal static class LocationProblems
{
    /// <summary>Most characters of a name or alias.</summary>
    public const int MaxNameLength = 200;

    /// <summary>Most aliases of one place.</summary>
    public const int MaxAliases = 100;

    private const int NamedInMessages = 5;

    public static ApiProblem NotFound() => ApiProblem.NotFound("No location has this id; /v1/locations lists them all.");

    /// <summary>Aliases that are no names, or doubled.</summary>
    public static ApiProblem? OfNames(IReadOnlyList<string> aliases) =>
        TextRules.OfItems("aliases", aliases, MaxNameLength) ?? TextRules.OfRepeats("aliases", aliases, PlaceName.Fold);

    /// <summary>A parent that is none, and aliases of others. The places must be locked.</summary>
    public static async Task<ApiProblem?> OfPlaceAsync(TagServiceDbContext database, string id, LocationRequest wanted, CancellationToken cancellationToken)
    {
        if (wanted.ParentId is { } parentId)
        {
            var problem = parentId == id ? null : await OfReferenceAsync(database, "parentId", parentId, cancellationToken);
            problem ??= await OfCycleAsync(database, id, parentId, cancellationToken);
            if (problem is not null)
                return problem;
        }

        var folded = (wanted.Aliases ?? []).Select(PlaceName.Fold).ToList();
        var taken = await database.LocationNames.AsNoTracking()
            .Where(n => n.IsAlias && n.LocationId != id && folded.Contains(n.Folded)).Take(NamedInMessages).ToListAsync(cancellationToken);
        return taken.Count == 0 ? null : AliasesTaken(wanted.Aliases!, taken.Select(n => (n.Folded, n.LocationId)), "location");
    }

    /// <summary>A member that should name a location and does not.</summary>
    public static async Task<ApiProblem?> OfReferenceAsync(TagServiceDbContext database, string member, string id, CancellationToken cancellationToken) =>
        ItemId.IsUsable(id, null, out _) && await database.Locations.AnyAsync(l => l.Id == id, cancellationToken)
            ? null
            : new ApiProblem(
                ProblemTypes.InvalidFields, $"{member} names no location.",
                [new($"#/{member}", JsonText.Clip(id), "No location has this id.", "an id of /v1/locations")]);

    /// <summary>Aliases that mean another place already.</summary>
    public static ApiProblem AliasesTaken(IReadOnlyList<string> aliases, IEnumerable<(string Folded, string Owner)> taken, string kind)
    {
        var owners = taken.ToDictionary(t => t.Folded, t => t.Owner, StringComparer.Ordinal);
        ProblemError[] errors =
        [
            .. aliases.Index().Where(a => owners.ContainsKey(PlaceName.Fold(a.Item))).Select(a => new ProblemError(
                TextRules.Pointer("aliases", a.Index), JsonText.Clip(a.Item), $"The {kind} {JsonText.Clip(owners[PlaceName.Fold(a.Item)])} has this alias.",
                $"an alias that no other {kind} has")),
        ];
        return new(ProblemTypes.Conflict, $"An alias means one {kind} only. {errors[0].Detail} Take it away there first.", errors);
    }

    /// <summary>What refers to the location. The places must be locked.</summary>
    public static async Task<ApiProblem?> OfUseAsync(TagServiceDbContext database, string id, CancellationToken cancellationToken)
    {
        var children = await database.Locations.Where(l => l.ParentId == id).OrderBy(l => l.Id).Select(l => l.Id).Take(NamedInMessages + 1).ToListAsync(cancellationToken);
        if (children.Count > 0)
            return new(ProblemTypes.Conflict, $"Locations lie within it: {Listed(children)}. Move or delete them first.");
        var readPoints = await database.ReadPoints.Where(r => r.LocationId == id).OrderBy(r => r.Id).Select(r => r.Id).Take(NamedInMessages + 1).ToListAsync(cancellationToken);
        return readPoints.Count > 0
            ? new(ProblemTypes.Conflict, $"Read points cover it: {Listed(readPoints)}. Put them elsewhere or delete them first.")
            : null;
    }

    private static async Task<ApiProblem?> OfCycleAsync(TagServiceDbContext database, string id, string parentId, CancellationToken cancellationToken)
    {
        List<string> up = parentId == id ? [id] : [.. await database.PathUpAsync(parentId, cancellationToken)];
        var at = up.IndexOf(id);
        if (at < 0)
            return null;
        // From the location down to the parent asked for, and round to the location again.
        string[] round = [.. up.Take(at + 1).Reverse(), id];
        return new(
            ProblemTypes.Conflict, "A location cannot lie within itself: " + string.Join(" > ", Shortened(round).Select(JsonText.Clip)) + ".",
            [new("#/parentId", JsonText.Clip(parentId), "This location lies within the one that is to be put into it.", "a location outside of it, or none")]);
    }

    private static string[] Shortened(string[] path) =>
        path.Length <= 2 * NamedInMessages ? path : [.. path[..NamedInMessages], "…", .. path[^NamedInMessages..]];

    private static string Listed(List<string> ids) =>
        string.Join(", ", ids.Take(NamedInMessages).Select(JsonText.Clip)) + (ids.Count > NamedInMessages ? " and others" : "");
}
