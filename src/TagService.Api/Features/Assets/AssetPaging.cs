using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Extensions;
using TagService.Api.Http.Problems;

namespace TagService.Api.Features.Assets;

/// <summary>Pages of the area's lists.</summary>
internal static class AssetPaging
{
    public const int DefaultLimit = 100;
    public const int MaxLimit = 1000;

    /// <summary>The problem with a page size, or null.</summary>
    public static ApiProblem? OfLimit(int? limit) => limit is < 1 or > MaxLimit
        ? new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"limit is {limit}; accepted: 1 to {MaxLimit}."))
        : null;

    /// <summary>The problem with a text, or null.</summary>
    public static ApiProblem? OfText(string name, string? text, int most)
    {
        if (text?.Length > most)
            return new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"{name} has {text.Length} characters; accepted are at most {most}."));
        return text?.Contains('\0', StringComparison.Ordinal) ?? false
            ? new(ProblemTypes.InvalidRequest, $"{name} holds a NUL character, which nothing here holds.")
            : null;
    }

    /// <summary>Points to the next page (RFC 8288) with the filters of this one.</summary>
    public static void Finish(HttpContext context, string parameter, string? next)
    {
        context.Response.Headers.CacheControl = "private, no-cache";
        if (next is null)
            return;
        var query = new QueryBuilder(context.Request.Query
            .Where(p => !p.Key.Equals(parameter, StringComparison.OrdinalIgnoreCase))
            .SelectMany(p => p.Value, (p, value) => KeyValuePair.Create(p.Key, value ?? "")))
        {
            { parameter, next },
        };
        context.Response.Headers.Link = $"<{context.Request.PathBase}{context.Request.Path}{query}>; rel=\"next\"";
    }
}
