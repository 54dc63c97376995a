using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Extensions;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http;

/// <summary>Pages that begin behind (or before) a key: items added or removed meanwhile move nothing.</summary>
internal static class Paging
{
    /// <summary>Items on a page unless asked otherwise.</summary>
    public const int DefaultLimit = 100;

    /// <summary>Most items on a page.</summary>
    public const int MaxLimit = 1000;

    /// <summary>The problem to answer with, or null.</summary>
    public static ApiProblem? Refusal(int? limit) => limit is < 1 or > MaxLimit
        ? new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"limit is {limit}; accepted: 1 to {MaxLimit}."))
        : null;

    /// <summary>Cuts one item too many off, and points to the page behind it (RFC 8288), keeping the other parameters.</summary>
    /// <param name="context">The request.</param>
    /// <param name="found">Up to one item more than wanted: it shows whether there is a next page.</param>
    /// <param name="limit">Items wanted.</param>
    /// <param name="parameter">Name of the parameter that says where a page begins.</param>
    /// <param name="key">Key of an item.</param>
    /// <returns>The page and the parameter's value for the next one, null on the last.</returns>
    public static (IReadOnlyList<T> Items, TKey? Next) Page<T, TKey>(HttpContext context, List<T> found, int limit, string parameter, Func<T, TKey> key)
    {
        context.Response.Headers.CacheControl = "private, no-cache";
        if (found.Count <= limit)
            return (found, default);
        found.RemoveRange(limit, found.Count - limit);
        var next = key(found[^1]);
        var query = new QueryBuilder(context.Request.Query
            .Where(p => !p.Key.Equals(parameter, StringComparison.OrdinalIgnoreCase))
            .SelectMany(p => p.Value, (p, value) => KeyValuePair.Create(p.Key, value ?? "")))
        {
            { parameter, Convert.ToString(next, CultureInfo.InvariantCulture)! },
        };
        context.Response.Headers.Link = $"<{context.Request.PathBase}{context.Request.Path}{query}>; rel=\"next\"";
        return (found, next);
    }
}
