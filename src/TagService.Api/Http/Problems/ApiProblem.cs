using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Problems;

/// <summary>A problem as an answer. Endpoints return it; nothing is thrown for what a caller did wrong.</summary>
public sealed record ApiProblem(ProblemType Type, string Detail, IReadOnlyList<ProblemError>? Errors = null)
    : IResult, IStatusCodeHttpResult
{
    /// <summary>Media type of problem details (RFC 9457).</summary>
    public const string MediaType = "application/problem+json";

    private static readonly ProblemJson Json = new(WithOurEncoder());

    /// <summary>Seconds after which to try again, sent as Retry-After.</summary>
    public int? RetryAfterSeconds { get; init; }

    /// <summary>A finer distinction within the type, as a stable word.</summary>
    public string? Code { get; init; }

    /// <inheritdoc />
    public int? StatusCode => Type.Status;

    /// <summary>Fields that cannot both hold.</summary>
    public static ApiProblem Contradictory(string detail, params IReadOnlyList<ProblemError> places) =>
        new(ProblemTypes.ContradictoryFields, detail, places);

    /// <summary>Nothing can be computed from the values.</summary>
    public static ApiProblem NotComputable(string detail, params IReadOnlyList<ProblemError> places) =>
        new(ProblemTypes.NotComputable, detail, places.Count == 0 ? null : places);

    /// <summary>An item that does not exist.</summary>
    public static ApiProblem NotFound(string detail) => new(ProblemTypes.NotFound, detail);

    /// <summary>The problem as it is written for one request.</summary>
    public ProblemResponse ToResponse(HttpContext context) =>
        new(Type.Uri, Type.Title, Type.Status, Detail, context.Request.Path, TraceId(context), Errors) { Code = Code };

    /// <inheritdoc />
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var body = JsonSerializer.SerializeToUtf8Bytes(ToResponse(httpContext), Json.ProblemResponse);
        var response = httpContext.Response;
        response.StatusCode = Type.Status;
        response.ContentType = MediaType;
        response.ContentLength = body.Length;
        response.Headers.CacheControl = "no-store";
        // The answer repeats what was sent.
        response.Headers.XContentTypeOptions = "nosniff";
        if (RetryAfterSeconds is { } seconds)
            response.Headers[HeaderNames.RetryAfter] = seconds.ToString(CultureInfo.InvariantCulture);
        if (!HttpMethods.IsHead(httpContext.Request.Method))
            await response.Body.WriteAsync(body, httpContext.RequestAborted);
    }

    // Without a listener there is no activity; the caller's own trace context (W3C) still names the request.
    private static string TraceId(HttpContext context)
    {
        if (Activity.Current is { } activity)
            return activity.TraceId.ToHexString();
        return ActivityContext.TryParse(context.Request.Headers.TraceParent, null, out var caller)
            ? caller.TraceId.ToHexString()
            : ActivityTraceId.CreateRandom().ToHexString();
    }

    private static JsonSerializerOptions WithOurEncoder()
    {
        var options = new JsonSerializerOptions();
        WireJson.Apply(options);
        return options;
    }
}
