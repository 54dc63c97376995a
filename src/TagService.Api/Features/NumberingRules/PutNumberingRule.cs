using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Numbering;
using TagService.Storage.Tables;

namespace TagService.Api.Features.NumberingRules;

/// <summary>PUT /v1/numbering-rules/{id}.</summary>
internal static class PutNumberingRule
{
    private const long FirstNumber = 1;

    // Each is compared with each.
    private const int MaxRules = 500;

    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{id}", Handle)
        .WithName("putNumberingRule")
        .WithSummary("A numbering rule, new or replaced")
        .WithDescription(
            "Each number makes one identity: company prefix, asset type or item reference where the scheme has one, leading characters, number. The company prefix must be "
            + "the one that GS1 licensed to the owner of the assets. Numbers never repeat; gaps are possible, because a number counts as used before "
            + "anybody sees it. So that no identity is given twice, what is refused (409): a nextNumber or lastNumber below what was handed out, "
            + "another kind of scheme, prefix, reference, leading or digits once numbers were handed out, and ranges that meet those of another rule. The request "
            + "replaces what was there before, but for nextNumber, which goes on if left out. The ETag changes with every number handed out: send If-Match only where "
            + "that matters, or If-None-Match: * to create only.")
        .Accepts<NumberingRuleRequest>("application/json")
        .WithExamples(static () => NumberingRuleMapping.ExampleRequest, static () => NumberingRuleMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Id of your own for the numbering rule: 1 to 100 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<NumberingRuleResponse>, Created<NumberingRuleResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string id, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<NumberingRuleRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(id);
        if (!ItemId.IsUsable(key, body.Value.Id, out var problem))
            return problem;
        return NumberingRuleProblems.OfMembers(body.Value) is { } unusable
            ? unusable
            : await ItemRequest.PutAsync(context, work, (database, ct) => PutAsync(database, context.Request, key, body.Value, clock, ct), cancellationToken);
    }

    private static async Task<ItemPut<NumberingRuleResponse>> PutAsync(
        TagServiceDbContext database, HttpRequest request, string id, NumberingRuleRequest wanted, TimeProvider clock, CancellationToken cancellationToken)
    {
        var rules = await database.LockNumberingRulesAsync(cancellationToken);
        var row = rules.SingleOrDefault(r => r.Id == id);
        if (Preconditions.Refusal(request, row is null ? null : ItemRequest.Tag(row.Version)) is { } refused)
            return refused;
        var next = wanted.NextNumber ?? row?.NextNumber ?? FirstNumber;
        var (range, problem) = NumberingRuleProblems.OfNumbers(wanted, row, next);
        problem ??= NumberingRuleProblems.OfOthers(range!, rules.Where(r => r.Id != id));
        if (problem is null && row is null && rules.Count >= MaxRules)
            problem = new(ProblemTypes.Conflict, $"There are {MaxRules} numbering rules already, the most there can be.");
        if (problem is not null)
            return problem;

        // First the old default gives way: the index that allows one looks after each statement.
        var now = StoredTime.Now(clock);
        foreach (var other in rules.Where(r => r.IsDefault && r.Id != id && wanted.IsDefault is true))
            (other.IsDefault, other.UpdatedAt) = (false, now);
        await database.SaveChangesAsync(cancellationToken);

        var isNew = row is null;
        row ??= database.Add(new NumberingRuleRow { Id = id, Scheme = wanted.Scheme, CompanyPrefix = wanted.CompanyPrefix, UpdatedAt = default }).Entity;
        row.Apply(wanted, range!, next);
        if (database.ChangeTracker.HasChanges())
            row.UpdatedAt = now;
        await database.SaveChangesAsync(cancellationToken);
        return new(row.ToResponse(), row.Version, isNew ? $"/v1/numbering-rules/{Uri.EscapeDataString(id)}" : null, null);
    }
}
