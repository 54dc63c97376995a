using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.Json;

/// <summary>What the header of a request says of its JSON body.</summary>
internal static class JsonRequest
{
    private const string MediaType = "application/json";

    /// <summary>Why the body is not even read, or null.</summary>
    public static ApiProblem? Refusal(HttpRequest request, JsonReadOptions options)
    {
        if (request.ContentLength > options.MaxBytes)
            return TooLarge(options);
        var encoding = request.Headers.ContentEncoding.ToString();
        if (encoding.Length > 0 && !encoding.Equals("identity", StringComparison.OrdinalIgnoreCase))
        {
            // RFC 9110, section 12.5.3: Accept-Encoding in a 415 tells what would have been accepted.
            request.HttpContext.Response.Headers.AcceptEncoding = "identity";
            return Unsupported($"Content-Encoding {JsonText.Clip(encoding)} is not read here; send the body without it.");
        }

        var type = request.ContentType;
        // The usual spellings first: parsing a header costs more than comparing it.
        if (type is MediaType or "application/json; charset=utf-8")
            return null;
        if (string.IsNullOrEmpty(type))
            return request.ContentLength is 0 ? null : Unsupported($"Content-Type is missing; send {MediaType}.");
        if (!MediaTypeHeaderValue.TryParse(type, out var parsed) || !IsJson(parsed))
            return Unsupported($"Content-Type {JsonText.Clip(type)} is not read here; send {MediaType}.");
        return parsed.Charset.HasValue && !parsed.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase)
            && !parsed.Charset.Equals("\"utf-8\"", StringComparison.OrdinalIgnoreCase)
            ? Unsupported($"The charset {JsonText.Clip(parsed.Charset.ToString())} is not read; JSON is UTF-8 (RFC 8259, section 8.1).")
            : null;
    }

    public static ApiProblem TooLarge(JsonReadOptions options) => new(
        ProblemTypes.BodyTooLarge,
        string.Create(CultureInfo.InvariantCulture, $"The body is larger than {options.MaxBytes} bytes, the limit of this operation."));

    /// <summary><c>Prefer: handling=strict</c> (RFC 7240, section 4.4); answered with Preference-Applied.</summary>
    public static bool PrefersStrict(HttpContext context)
    {
        foreach (var line in context.Request.Headers["Prefer"])
        {
            foreach (var preference in line?.Split(',') ?? [])
            {
                var token = preference.Split(';')[0].Replace(" ", "", StringComparison.Ordinal).Replace("\"", "", StringComparison.Ordinal);
                if (token.Equals("handling=strict", StringComparison.OrdinalIgnoreCase))
                {
                    context.Response.Headers["Preference-Applied"] = "handling=strict";
                    return true;
                }
            }
        }

        return false;
    }

    private static bool IsJson(MediaTypeHeaderValue type) =>
        type.MediaType.Equals(MediaType, StringComparison.OrdinalIgnoreCase)
        || (type.Type.Equals("application", StringComparison.OrdinalIgnoreCase) && type.Suffix.Equals("json", StringComparison.OrdinalIgnoreCase)
            && !type.SubType.StartsWith("problem", StringComparison.OrdinalIgnoreCase));

    private static ApiProblem Unsupported(string detail) => new(ProblemTypes.UnsupportedMediaType, detail);
}
