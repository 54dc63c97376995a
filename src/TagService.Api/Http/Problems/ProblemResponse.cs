using System.Text.Json.Serialization;

namespace TagService.Api.Http.Problems;

/// <summary>Problem details (RFC 9457), sent as application/problem+json.</summary>
/// <param name="Type">Stable URI of the problem type; all types are listed at /problems.</param>
/// <param name="Title">Short text, the same for all problems of the type.</param>
/// <param name="Status">The HTTP status code again.</param>
/// <param name="Detail">What happened this time.</param>
/// <param name="Instance">Path of the request.</param>
/// <param name="TraceId">W3C trace id (32 hexadecimal digits) under which the service's log has this request.</param>
/// <param name="Errors">What is wrong, place by place.</param>
public sealed record ProblemResponse(
    string Type, string Title, int Status, string Detail, string? Instance, string TraceId, IReadOnlyList<ProblemError>? Errors)
{
    /// <summary>For register-unreadable: which fault it was, as a stable word, for example timed-out or credentials-refused.</summary>
    public string? Code { get; init; }

    /// <summary>In a batch: number of the line that could not be answered, from 1.</summary>
    public long? Line { get; init; }
}

/// <summary>Serialisation of problems without reflection: they are also what is written when much is wrong.</summary>
[JsonSerializable(typeof(ProblemResponse))]
internal sealed partial class ProblemJson : JsonSerializerContext;
