using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http;

/// <summary>The form in which an answer is wanted: by the query parameter format, else by Accept (RFC 9110, section 12.5.1), else JSON.</summary>
/// <param name="Format">Its name in the query parameter.</param>
/// <param name="MediaType">Its media type.</param>
internal sealed record Representation(string Format, string MediaType)
{
    public static readonly Representation Json = new("json", "application/json");
    public static readonly Representation Html = new("html", "text/html");
    public static readonly Representation Csv = new("csv", "text/csv");

    /// <summary>Chooses among what an operation offers.</summary>
    /// <param name="request">The request.</param>
    /// <param name="format">The query parameter format.</param>
    /// <param name="offered">What there is, the usual one first.</param>
    /// <param name="chosen">The choice.</param>
    /// <returns>The problem with the parameter, or null. An Accept header that names nothing of it gets the usual form.</returns>
    public static ApiProblem? Choose(HttpRequest request, string? format, IReadOnlyList<Representation> offered, out Representation chosen)
    {
        chosen = offered[0];
        if (format is not null)
        {
            var named = offered.FirstOrDefault(o => o.Format == format);
            chosen = named ?? chosen;
            return named is not null ? null : new(
                ProblemTypes.InvalidRequest, "The query parameter format names no form of this answer.",
                [new("format", format.Length > 80 ? format[..80] : format, "Not a form of this answer.", string.Join(", ", offered.Select(o => o.Format)))]);
        }

        if (MediaTypeHeaderValue.TryParseList(request.Headers.Accept, out var accepted))
            chosen = offered.MaxBy(o => Quality(accepted, o.MediaType))!;
        return null;
    }

    // The most specific range that matches decides; MaxBy keeps the first of equals, which is the usual form.
    private static double Quality(IList<MediaTypeHeaderValue> accepted, string mediaType)
    {
        var offer = new MediaTypeHeaderValue(mediaType);
        var best = accepted.Where(a => a.MatchesMediaType(new StringSegment(offer.MediaType.Value)))
            .OrderByDescending(a => a.MatchesAllTypes ? 0 : a.MatchesAllSubTypes ? 1 : 2).FirstOrDefault();
        return best is null ? -1 : best.Quality ?? 1;
    }
}
