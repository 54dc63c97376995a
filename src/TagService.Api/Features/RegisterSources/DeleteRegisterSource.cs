using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSources;

/// <summary>DELETE /v1/register-sources/{name}.</summary>
internal static class DeleteRegisterSource
{
    public static void Map(IEndpointRouteBuilder group) => group.MapDelete("/{name}", Handle)
        .WithName("deleteRegisterSource")
        .WithSummary("Take a register source away")
        .WithDescription(
            "No more runs are made and one that is not over is cancelled. Its assets stay as they are, with their history; its finished runs stay too. A source from the "
            + "operator's configuration is read-only (409). Send If-Match with the ETag you have seen.")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="name">Name of the source; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<NoContent, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string name, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(name);
        return ItemId.IsUsable(key, null, out _)
            ? await ItemRequest.DeleteAsync(context, work, (database, ct) => DeleteAsync(database, context.Request, key, clock, ct), cancellationToken)
            : RegisterSourceMapping.NotFound();
    }

    private static async Task<ApiProblem?> DeleteAsync(TagServiceDbContext database, HttpRequest request, string name, TimeProvider clock, CancellationToken cancellationToken)
    {
        var row = await RegisterSourceStore.FindAsync(database, name, cancellationToken);
        if (row is null)
            return RegisterSourceMapping.NotFound();
        if (Preconditions.Refusal(request, RegisterSourceTags.ForPrecondition(request, await database.StateOfAsync(row, cancellationToken))) is { } refused)
            return refused;
        if (row.IsFromConfiguration)
            return RegisterSourceStore.FromConfiguration(name);
        database.Remove(row);
        await database.SaveChangesAsync(cancellationToken);
        await database.ForgetRegisterSourceAsync(name, StoredTime.Now(clock), cancellationToken);
        return null;
    }
}
