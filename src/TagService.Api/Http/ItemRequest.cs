using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;
using Npgsql;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;

namespace TagService.Api.Http;

/// <summary>What a PUT came to: the item as it now is, or the problem it was refused with.</summary>
/// <param name="Response">The item; null with a problem.</param>
/// <param name="Version">Version of its row.</param>
/// <param name="Created">Address of the item where it is new: 201 instead of 200.</param>
/// <param name="Problem">Why nothing was changed.</param>
internal readonly record struct ItemPut<TResponse>(TResponse? Response, uint Version, string? Created, ApiProblem? Problem)
    where TResponse : class
{
    public static implicit operator ItemPut<TResponse>(ApiProblem problem) => new(null, 0, null, problem);
}

/// <summary>Items that are one row each with a row version: shown with an ETag, replaced and deleted under the conditions of RFC 9110.</summary>
internal static class ItemRequest
{
    private const int Attempts = 3;

    /// <summary>Strong validator of a row.</summary>
    public static EntityTagHeaderValue Tag(uint version) => new(string.Create(CultureInfo.InvariantCulture, $"\"{version:x}\""));

    /// <summary>The item, or 304 when the caller has it as it is.</summary>
    public static Results<Ok<TResponse>, StatusCodeHttpResult, ApiProblem> Show<TResponse>(HttpContext context, TResponse response, uint version) =>
        Show(context, response, Tag(version));

    /// <summary>The same with another validator.</summary>
    public static Results<Ok<TResponse>, StatusCodeHttpResult, ApiProblem> Show<TResponse>(HttpContext context, TResponse response, EntityTagHeaderValue tag)
    {
        context.Response.GetTypedHeaders().ETag = tag;
        context.Response.Headers.CacheControl = "private, no-cache";
        // If-None-Match compares weakly (RFC 9110, section 13.1.2).
        return context.Request.GetTypedHeaders().IfNoneMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(tag, useStrongComparison: false))
            ? TypedResults.StatusCode(StatusCodes.Status304NotModified)
            : TypedResults.Ok(response);
    }

    /// <summary>Runs a PUT in a transaction of its own; it may be run again when somebody else was quicker.</summary>
    public static async Task<Results<Ok<TResponse>, Created<TResponse>, ApiProblem>> PutAsync<TResponse>(
        HttpContext context, TransactedWork work, Func<TagServiceDbContext, CancellationToken, Task<ItemPut<TResponse>>> put, CancellationToken cancellationToken)
        where TResponse : class
    {
        var done = default(ItemPut<TResponse>);
        var problem = await RunAsync(context, work, async (database, ct) => (done = await put(database, ct)).Problem, isDelete: false, cancellationToken);
        if (problem is not null)
            return problem;
        context.Response.GetTypedHeaders().ETag = Tag(done.Version);
        return done.Created is null ? TypedResults.Ok(done.Response) : TypedResults.Created(done.Created, done.Response);
    }

    /// <summary>Runs a DELETE in a transaction of its own.</summary>
    public static async Task<Results<NoContent, ApiProblem>> DeleteAsync(
        HttpContext context, TransactedWork work, Func<TagServiceDbContext, CancellationToken, Task<ApiProblem?>> delete, CancellationToken cancellationToken) =>
        await RunAsync(context, work, delete, isDelete: true, cancellationToken) is { } problem ? problem : TypedResults.NoContent();

    private static async Task<ApiProblem?> RunAsync(
        HttpContext context, TransactedWork work, Func<TagServiceDbContext, CancellationToken, Task<ApiProblem?>> change, bool isDelete, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            ApiProblem? problem = null;
            try
            {
                await work.RunAsync(null, async (database, ct) => (problem = await change(database, ct)) is null ? Kept : null, cancellationToken);
                return problem;
            }
            catch (DbUpdateException e) when (isDelete && e.InnerException is PostgresException { SqlState: PostgresErrorCodes.ForeignKeyViolation } violation)
            {
                return new ApiProblem(
                    ProblemTypes.Conflict, $"It cannot be deleted: rows of {violation.TableName} refer to it. Change or delete those first.");
            }
            catch (DbUpdateException e) when (IsOvertaken(e))
            {
                if (attempt == Attempts || Preconditions.Any(context.Request))
                    return Preconditions.Overtaken();
            }
        }
    }

    // Changed, made or removed by somebody else between looking and writing: the next look shows what is so.
    private static bool IsOvertaken(DbUpdateException exception) => exception is DbUpdateConcurrencyException
        || exception.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation or PostgresErrorCodes.ForeignKeyViolation };

    // The row's own answer is written by the endpoint; without a key nobody reads this one.
    private static StoredAnswer Kept { get; } = new(StatusCodes.Status200OK, "");
}
