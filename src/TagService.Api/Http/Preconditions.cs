using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http;

/// <summary>If-Match and If-None-Match of requests that change an item (RFC 9110, sections 13.1.1, 13.1.2 and 13.2.2).</summary>
internal static class Preconditions
{
    /// <summary>Does the request depend on the item's state at all?</summary>
    public static bool Any(HttpRequest request) => request.Headers.IfMatch.Count > 0 || request.Headers.IfNoneMatch.Count > 0;

    /// <summary>The problem to answer with, or null when the request may go on.</summary>
    /// <param name="request">The request.</param>
    /// <param name="current">Validator of the item as it is; null when there is none.</param>
    public static ApiProblem? Refusal(HttpRequest request, EntityTagHeaderValue? current)
    {
        var headers = request.GetTypedHeaders();
        if (request.Headers.IfMatch.Count > 0)
        {
            if (headers.IfMatch.Count == 0)
                return Unreadable("If-Match");
            if (current is null || !headers.IfMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(current, useStrongComparison: true)))
                return Failed(current is null ? "If-Match is sent, but the item does not exist." : "If-Match names another state than the item has.");
        }

        if (request.Headers.IfNoneMatch.Count > 0)
        {
            if (headers.IfNoneMatch.Count == 0)
                return Unreadable("If-None-Match");
            if (current is not null && headers.IfNoneMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(current, useStrongComparison: false)))
                return Failed("If-None-Match is sent, but the item exists in that state.");
        }

        return null;
    }

    /// <summary>Somebody else changed the item between looking and writing.</summary>
    public static ApiProblem Overtaken() => Failed("Somebody else changed the item at the same time.");

    private static ApiProblem Failed(string detail) => new(ProblemTypes.PreconditionFailed, detail);

    private static ApiProblem Unreadable(string header) =>
        new(ProblemTypes.InvalidRequest, $"{header} holds no entity tag; accepted: * or quoted tags such as \"0af7\" (RFC 9110, section 8.8.3).");
}
