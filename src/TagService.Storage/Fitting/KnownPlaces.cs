using Microsoft.EntityFrameworkCore;
using TagService.Domain.Places;

namespace TagService.Storage.Fitting;

/// <summary>The tree of locations as it was at one moment, for turning the register's words into places; there are few locations.</summary>
public sealed class KnownPlaces
{
    private readonly Dictionary<string, Place> _byId;
    private readonly ILookup<string, string> _byName;
    private readonly ILookup<string?, string> _children;

    private KnownPlaces(IReadOnlyCollection<Place> places, IReadOnlyCollection<PlaceNamed> names)
    {
        _byId = places.ToDictionary(p => p.Id, StringComparer.Ordinal);
        _byName = names.ToLookup(n => n.Folded, n => n.Id, StringComparer.Ordinal);
        _children = places.ToLookup(p => p.ParentId, p => p.Id);
    }

    /// <summary>No locations.</summary>
    public static KnownPlaces None { get; } = new([], []);

    /// <summary>Reads the tree.</summary>
    public static async Task<KnownPlaces> ReadAsync(TagServiceDbContext database, CancellationToken cancellationToken) => new(
        await database.Locations.AsNoTracking().Select(l => new Place(l.Id, l.Name, l.ParentId)).ToListAsync(cancellationToken),
        await database.LocationNames.AsNoTracking().Select(n => new PlaceNamed(n.LocationId, n.Folded)).ToListAsync(cancellationToken));

    /// <summary>The location that words mean: its id, or a name or alias that no other location has; null when there is none or more than one.</summary>
    /// <param name="words">The register's words, or what somebody asks for.</param>
    public string? Find(string? words)
    {
        if (words is null)
            return null;
        if (_byId.ContainsKey(words))
            return words;
        var found = _byName[PlaceName.Fold(words)].Distinct(StringComparer.Ordinal).Take(2).ToList();
        return found.Count == 1 ? found[0] : null;
    }

    /// <summary>Names from the top down to a location.</summary>
    /// <param name="id">Id of a location.</param>
    public IReadOnlyList<string> PathOf(string id)
    {
        var path = new List<string>();
        // Bounded, should somebody have made a cycle by hand.
        for (var at = _byId.GetValueOrDefault(id); at is not null && path.Count <= _byId.Count; at = at.ParentId is null ? null : _byId.GetValueOrDefault(at.ParentId))
            path.Add(at.Name);
        path.Reverse();
        return path;
    }

    /// <summary>A location and all that lie in it.</summary>
    /// <param name="id">Id of a location.</param>
    public IReadOnlySet<string> Subtree(string id)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>([id]);
        while (open.TryPop(out var next))
        {
            if (!found.Add(next))
                continue;
            foreach (var child in _children[next])
                open.Push(child);
        }

        return found;
    }

    private sealed record Place(string Id, string Name, string? ParentId);

    private sealed record PlaceNamed(string Id, string Folded);
}
