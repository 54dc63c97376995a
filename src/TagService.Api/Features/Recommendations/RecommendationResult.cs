using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using TagService.Api.Http.Json;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>An answer on its way out: one write of known length.</summary>
internal sealed class RecommendationResult(RecommendationAnswer answer, IReadOnlyList<Notice> ownFields)
    : IResult, IStatusCodeHttpResult, IEndpointMetadataProvider
{
    private const string MediaType = "application/json";

    /// <inheritdoc />
    public int? StatusCode => StatusCodes.Status200OK;

    /// <inheritdoc />
    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(RecommendationResponse), [MediaType]));

    /// <inheritdoc />
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        using var json = new JsonBytes();
        RecommendationWriter.Write(json, answer, ownFields);
        var response = httpContext.Response;
        response.ContentType = $"{MediaType}; charset=utf-8";
        response.ContentLength = json.Length;
        // Headers first: after them the server hands out one piece of memory for the whole answer, where it would else copy and send it in
        // pieces of 4 KB. Without a token: it ends the write of a caller who has gone, and nothing need be thrown for that.
        await response.StartAsync(CancellationToken.None);
        json.Written.CopyTo(response.BodyWriter.GetMemory(json.Length));
        response.BodyWriter.Advance(json.Length);
        await response.BodyWriter.FlushAsync(CancellationToken.None);
    }
}
