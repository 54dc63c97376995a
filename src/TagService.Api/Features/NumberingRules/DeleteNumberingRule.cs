using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Numbering;

namespace TagService.Api.Features.NumberingRules;

/// <summary>DELETE /v1/numbering-rules/{id}.</summary>
internal static class DeleteNumberingRule
{
    public static void Map(IEndpointRouteBuilder group) => group.MapDelete("/{id}", Handle)
        .WithName("deleteNumberingRule")
        .WithSummary("Take a numbering rule away")
        .WithDescription(
            "Refused (409) once numbers were handed out: a rule forgotten could hand them out again. Set its lastNumber to stop it. Send If-Match with the ETag you have seen.")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="id">Id of the numbering rule; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<NoContent, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _)
            ? await ItemRequest.DeleteAsync(context, work, (database, ct) => DeleteAsync(database, context.Request, key, ct), cancellationToken)
            : NumberingRuleProblems.NotFound();
    }

    private static async Task<ApiProblem?> DeleteAsync(TagServiceDbContext database, HttpRequest request, string id, CancellationToken cancellationToken)
    {
        var row = (await database.LockNumberingRulesAsync(cancellationToken)).SingleOrDefault(r => r.Id == id);
        if (row is null)
            return NumberingRuleProblems.NotFound();
        if ((Preconditions.Refusal(request, ItemRequest.Tag(row.Version)) ?? NumberingRuleProblems.OfUse(row)) is { } refused)
            return refused;
        database.Remove(row);
        await database.SaveChangesAsync(cancellationToken);
        return null;
    }
}
