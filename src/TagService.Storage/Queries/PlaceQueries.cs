using Microsoft.EntityFrameworkCore;
using TagService.Domain.Places;
using TagService.Storage.Places;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading locations and read points.</summary>
public static class PlaceQueries
{
    /// <summary>All locations, or those within one (itself among them).</summary>
    /// <param name="context">The database.</param>
    /// <param name="under">Id of the outermost location; null for all.</param>
    public static IQueryable<LocationRow> LocationsUnder(this TagServiceDbContext context, string? under) =>
        (under is null ? context.Locations : context.Locations.FromSqlRaw(LocationTree.SubtreeSql, under)).AsNoTracking();

    /// <summary>Locations of this name. An alias means one location; only where the name is no alias do plain names count.</summary>
    /// <param name="locations">Where to look.</param>
    /// <param name="context">The database.</param>
    /// <param name="name">Name or alias, any case and spacing.</param>
    public static IQueryable<LocationRow> Named(this IQueryable<LocationRow> locations, TagServiceDbContext context, string name)
    {
        var folded = PlaceName.Fold(name);
        return locations.Where(l => l.Names.Any(n => n.Folded == folded
            && (n.IsAlias || !context.LocationNames.Any(other => other.Folded == folded && other.IsAlias))));
    }

    /// <summary>Read points of this name, by the same rule as for locations.</summary>
    /// <param name="readPoints">Where to look.</param>
    /// <param name="context">The database.</param>
    /// <param name="name">Name or alias, any case and spacing.</param>
    public static IQueryable<ReadPointRow> Named(this IQueryable<ReadPointRow> readPoints, TagServiceDbContext context, string name)
    {
        var folded = PlaceName.Fold(name);
        return readPoints.Where(r => r.Names.Any(n => n.Folded == folded
            && (n.IsAlias || !context.ReadPointNames.Any(other => other.Folded == folded && other.IsAlias))));
    }

    /// <summary>All read points, or those at a location and within it.</summary>
    /// <param name="context">The database.</param>
    /// <param name="under">Id of the outermost location; null for all.</param>
    public static IQueryable<ReadPointRow> ReadPointsUnder(this TagServiceDbContext context, string? under)
    {
        var all = context.ReadPoints.AsNoTracking();
        return under is null ? all : all.Where(r => context.LocationsUnder(under).Any(l => l.Id == r.LocationId));
    }
}
