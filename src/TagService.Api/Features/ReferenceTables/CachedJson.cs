using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Json;

namespace TagService.Api.Features.ReferenceTables;

/// <summary>An answer that stays the same as long as the program does: written once, sent with an ETag (RFC 9110, section 8.8.3).</summary>
internal sealed class CachedJson
{
    private readonly byte[] _body;
    private readonly EntityTagHeaderValue _tag;

    private CachedJson(byte[] body)
    {
        _body = body;
        _tag = new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(SHA256.HashData(body))[..32]}\"");
    }

    /// <summary>Strong validator of the body.</summary>
    public EntityTagHeaderValue Tag => _tag;

    public static CachedJson Of<T>(T value) => new(JsonSerializer.SerializeToUtf8Bytes(value, WireJson.Options));

    /// <summary>Sends the body, or 304 when the caller has it.</summary>
    /// <param name="context">The request.</param>
    /// <param name="freshSeconds">How long the caller may use it without asking again.</param>
    public async Task SendAsync(HttpContext context, int freshSeconds = 300)
    {
        var response = context.Response;
        response.GetTypedHeaders().ETag = _tag;
        // Private: answers depend on the caller once access keys are in force.
        response.Headers.CacheControl = string.Create(CultureInfo.InvariantCulture, $"private, max-age={freshSeconds}{(freshSeconds == 0 ? ", must-revalidate" : "")}");
        if (IsKnown(context.Request))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = _body.Length;
        await response.Body.WriteAsync(_body, context.RequestAborted);
    }

    // If-None-Match compares weakly (RFC 9110, section 13.1.2).
    private bool IsKnown(HttpRequest request) =>
        request.GetTypedHeaders().IfNoneMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(_tag, useStrongComparison: false));
}
