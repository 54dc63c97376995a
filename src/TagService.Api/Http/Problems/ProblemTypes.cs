namespace TagService.Api.Http.Problems;

/// <summary>All problem types of the interface. A new one is added here and nowhere else.</summary>
public static class ProblemTypes
{
    /// <summary>The body is not JSON.</summary>
    public static ProblemType MalformedBody { get; } = new(
        "malformed-body", "The body is not well formed", 400,
        "The body is empty, breaks off, is not UTF-8, nests too deep or is not JSON (RFC 8259) at the stated line and column; or a line of CSV has another number of fields than its header.",
        "Send one JSON value, or lines as the operation describes them, in UTF-8; correct the stated place.");

    /// <summary>JSON, but not what the operation takes.</summary>
    public static ProblemType InvalidFields { get; } = new(
        "invalid-fields", "Fields are unknown, of the wrong type or out of range", 400,
        "The body is JSON, but some members are unknown, misplaced, doubled, missing, of the wrong type or out of range. All of them are listed in errors.",
        "Correct each listed place as accepted says. Members that the operation does not know are refused so that a misspelling is not silently ignored.");

    /// <summary>A query parameter, header or path segment that cannot be used.</summary>
    public static ProblemType InvalidRequest { get; } = new(
        "invalid-request", "The request cannot be read", 400,
        "The request line, a header or a parameter is not what HTTP or this operation allows.",
        "Correct what detail names.");

    /// <summary>Nothing at this path.</summary>
    public static ProblemType NotFound { get; } = new(
        "not-found", "Nothing is at this address", 404,
        "The path is none of this interface, or the item it names does not exist.",
        "Compare the path with the OpenAPI document at /openapi/v1.json, or list the collection to find the item's id.");

    /// <summary>Method not available.</summary>
    public static ProblemType MethodNotAllowed { get; } = new(
        "method-not-allowed", "The method is not available at this address", 405,
        "The path exists, but not with this method. The Allow header lists the methods there are.",
        "Use one of the methods in Allow.");

    /// <summary>The request came too slowly.</summary>
    public static ProblemType RequestTimeout { get; } = new(
        "request-timeout", "The request took too long to arrive", 408,
        "The body arrived more slowly than the server waits.",
        "Send it again over a better connection, or in smaller parts.");

    /// <summary>Not possible in the item's present state.</summary>
    public static ProblemType Conflict { get; } = new(
        "conflict", "The item does not allow this", 409,
        "The request is fine by itself, but the item's present state does not allow it; detail says why.",
        "Do what detail proposes.");

    /// <summary>A condition of the request's header does not hold.</summary>
    public static ProblemType PreconditionFailed { get; } = new(
        "precondition-failed", "The item is not as the request expects", 412,
        "If-Match or If-None-Match does not hold: somebody changed, made or removed the item since it was read. Nothing was changed.",
        "Get the item again, look at what changed and repeat with its present ETag.");

    /// <summary>Body too large.</summary>
    public static ProblemType BodyTooLarge { get; } = new(
        "body-too-large", "The body is too large", 413,
        "The body is larger than this operation accepts; detail names the limit.",
        "Send less in one request; many records belong in a batch operation.");

    /// <summary>The answers of a batch were not read.</summary>
    public static ProblemType AnswersNotRead { get; } = new(
        "answers-not-read", "The answers were not read while lines were sent", 413,
        "A batch went on sending without reading any answer until there was no more room to keep them. The lines from the stated one on were taken but not answered.",
        "Send those lines again: in a smaller batch, or with a client that reads while it sends. Whoever runs the service can give batches more room (Batch:SpoolMegabytes).");

    /// <summary>Media type not supported.</summary>
    public static ProblemType UnsupportedMediaType { get; } = new(
        "unsupported-media-type", "The body's media type, charset or encoding is not supported", 415,
        "The Content-Type, its charset or the Content-Encoding is none that this operation reads.",
        "Send application/json in UTF-8 without Content-Encoding, unless the operation says otherwise.");

    /// <summary>Members contradict each other.</summary>
    public static ProblemType ContradictoryFields { get; } = new(
        "contradictory-fields", "Fields contradict each other", 422,
        "Each member is fine by itself, but two of them cannot both hold. Both are listed in errors with their values.",
        "Correct one of the two.");

    /// <summary>Nothing can be computed from these values.</summary>
    public static ProblemType NotComputable { get; } = new(
        "not-computable", "These values have no result", 422,
        "The values are well formed, but the calculation has no result for them; detail says why.",
        "Change the values as detail says.");

    /// <summary>A register source cannot be read.</summary>
    public static ProblemType RegisterUnreadable { get; } = new(
        "register-unreadable", "The register source cannot be read", 422,
        "The service asked the register, or looked into its folder, and got no rows; code says which fault it was, detail what happened.",
        "Correct the source as detail says, or ask again when the register answers: after the time in Retry-After where it is sent.");

    /// <summary>The same Idempotency-Key with another body.</summary>
    public static ProblemType IdempotencyKeyReused { get; } = new(
        "idempotency-key-reused", "The Idempotency-Key was used for something else", 422,
        "A request with this Idempotency-Key was answered before and had another body. Nothing was changed.",
        "Use a new key for a new request; repeat a request with the same key and body only.");

    /// <summary>A defect of the service.</summary>
    public static ProblemType InternalError { get; } = new(
        "internal-error", "The service failed", 500,
        "A defect of the service, not of the request. The service's log has the details under the trace id.",
        "Report the trace id to whoever runs the service.");

    /// <summary>The database does not answer.</summary>
    public static ProblemType Unavailable { get; } = new(
        "unavailable", "The service cannot answer at the moment", 503,
        "Something the service depends on, usually its database, does not answer or is overloaded.",
        "Send the request again after the time in Retry-After.");

    /// <summary>Not ready for traffic.</summary>
    public static ProblemType NotReady { get; } = new(
        "not-ready", "The service is not ready", 503,
        "The service runs but must not get traffic yet; detail says what is missing.",
        "Wait, or correct what detail names: start the database, or run the migration.");

    /// <summary>All types, by status.</summary>
    public static IReadOnlyList<ProblemType> All { get; } =
    [
        MalformedBody, InvalidFields, InvalidRequest, NotFound, MethodNotAllowed, RequestTimeout, Conflict, PreconditionFailed, BodyTooLarge,
        AnswersNotRead, UnsupportedMediaType, ContradictoryFields, NotComputable, RegisterUnreadable, IdempotencyKeyReused, InternalError, Unavailable, NotReady,
    ];
}
