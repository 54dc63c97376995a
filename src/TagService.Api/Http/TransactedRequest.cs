using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;

namespace TagService.Api.Http;

/// <summary>What a change came to: an answer, or the problem it was refused with.</summary>
/// <param name="Response">The answer; null with a problem.</param>
/// <param name="Created">Address of the item where it is new: 201 instead of 200.</param>
/// <param name="Problem">Why nothing was changed.</param>
internal readonly record struct Changed<TResponse>(TResponse? Response, string? Created, ApiProblem? Problem)
    where TResponse : class
{
    public static implicit operator Changed<TResponse>(ApiProblem problem) => new(null, null, problem);

    public static implicit operator Changed<TResponse>(TResponse response) => new(response, null, null);
}

/// <summary>Requests that change rows: one transaction, one Idempotency-Key, one answer.</summary>
internal static class TransactedRequest
{
    /// <summary>Longest key taken.</summary>
    public const int MaxKeyLength = 200;

    /// <summary>What the header's description says.</summary>
    public const string KeyDescription =
        "Names this request; sent again with the same body, nothing is done twice and the first answer is given again. Up to 200 visible ASCII characters.";

    // Members that are null are not written, so a stored answer may lack what a constructor asks for.
    private static readonly JsonSerializerOptions Reading = new(WireJson.Options) { RespectRequiredConstructorParameters = false };

    /// <summary>The problem of a key that cannot be used, or null; no key is fine.</summary>
    public static ApiProblem? KeyRefusal(string? key) =>
        key is not null && (key.Length is 0 or > MaxKeyLength || key.Any(c => c is < '!' or > '~'))
            ? new(ProblemTypes.InvalidRequest, $"Idempotency-Key must have 1 to {MaxKeyLength} visible ASCII characters.")
            : null;

    /// <summary>Runs a change; a problem keeps nothing and leaves the key free.</summary>
    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="operation">The operation's id in the OpenAPI document.</param>
    /// <param name="key">The Idempotency-Key header, if sent.</param>
    /// <param name="request">The body as understood.</param>
    /// <param name="change">Changes rows and saves them.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    public static async Task<Results<Ok<TResponse>, Created<TResponse>, ApiProblem>> RunAsync<TRequest, TResponse>(
        HttpContext context, TransactedWork work, string operation, string? key, TRequest request,
        Func<TagServiceDbContext, CancellationToken, Task<Changed<TResponse>>> change, CancellationToken cancellationToken)
        where TResponse : class
    {
        if (KeyRefusal(key) is { } refused)
            return refused;
        var named = key is null ? null : IdempotencyKey.Of(operation, key, context.Request.Path + context.Request.QueryString, request);
        ApiProblem? problem = null;
        WorkOutcome outcome;
        try
        {
            outcome = await work.RunAsync(named, async (database, ct) =>
            {
                var changed = await change(database, ct);
                problem = changed.Problem;
                return problem is not null ? null : new(
                    changed.Created is null ? StatusCodes.Status200OK : StatusCodes.Status201Created,
                    JsonSerializer.Serialize(changed.Response, WireJson.Options), changed.Created);
            }, cancellationToken);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Preconditions.Overtaken();
        }

        return outcome switch
        {
            WorkOutcome.Done done => Answer<TResponse>(done.Answer),
            WorkOutcome.KeyReused => new ApiProblem(ProblemTypes.IdempotencyKeyReused, "This Idempotency-Key was used before with another body or address."),
            _ => problem!,
        };
    }

    // The stored text is read back, so that a repeated request gets what the first one got.
    private static Results<Ok<TResponse>, Created<TResponse>, ApiProblem> Answer<TResponse>(StoredAnswer answer)
        where TResponse : class
    {
        var response = JsonSerializer.Deserialize<TResponse>(answer.Body, Reading)!;
        return answer.Status == StatusCodes.Status201Created ? TypedResults.Created(answer.Location, response) : TypedResults.Ok(response);
    }
}
