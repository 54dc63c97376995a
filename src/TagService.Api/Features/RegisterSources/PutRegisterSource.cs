using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSources;

/// <summary>PUT /v1/register-sources/{name}.</summary>
internal static class PutRegisterSource
{
    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{name}", Handle)
        .WithName("putRegisterSource")
        .WithSummary("A register source, new or replaced")
        .WithDescription(
            "How a register is read (exactly one of http, csv, spreadsheet), which of its columns feeds which field, and how far it is believed. Everything that is wrong is "
            + "listed at once with its place. Credentials and folders are named, not sent: they stand in the operator's configuration, and a name that is not there is refused "
            + "with those that are. Other settings than before make the next run start anew. Try a mapping first with /v1/register-sources/preview. The request replaces what "
            + "was there before. Send If-Match with the ETag you have seen, or If-None-Match: * to create only. A source from the operator's configuration is read-only (409).")
        .Accepts<RegisterSourceRequest>("application/json")
        .WithExamples(static () => RegisterSourceExamples.Request, static () => RegisterSourceExamples.Response)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="reader">Checks what is sent.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="name">Name of the source: 1 to 100 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSourceResponse>, Created<RegisterSourceResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TransactedWork work,
        [FromServices] RegisterSourceReader reader,
        [FromServices] TimeProvider clock,
        string name,
        CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<RegisterSourceRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(name);
        if (!ItemId.IsUsable(key, null, out var problem))
            return problem;
        if (body.Value.Name is { } repeated && repeated != key)
            return ApiProblem.Contradictory("The name in the body is another than that in the path.", new ProblemError("#/name", JsonText.Clip(repeated), "Not the name of the path.", JsonText.Clip(key)));
        if (RegisterSourceStore.NameRefusal(key) is { } reserved)
            return reserved;
        var (source, wrong) = reader.Read(body.Value);
        if (source is null)
            return wrong!;
        var stored = (StoredRegisterSource?)null;
        var result = await ItemRequest.PutAsync(
            context, work,
            async (database, ct) =>
            {
                var (put, now) = await PutAsync(database, context.Request, key, body.Value, source, clock, ct);
                stored = now;
                return put;
            },
            cancellationToken);
        if (stored is not null && result.Result is not ApiProblem)
            context.Response.GetTypedHeaders().ETag = RegisterSourceTags.Of(stored);
        return result;
    }

    private static async Task<(ItemPut<RegisterSourceResponse> Put, StoredRegisterSource? Stored)> PutAsync(
        TagServiceDbContext database, HttpRequest request, string name, RegisterSourceRequest wanted, RegisterSource source, TimeProvider clock, CancellationToken cancellationToken)
    {
        var row = await RegisterSourceStore.FindAsync(database, name, cancellationToken);
        var before = row is null ? null : await database.StateOfAsync(row, cancellationToken);
        if (Preconditions.Refusal(request, before is null ? null : RegisterSourceTags.ForPrecondition(request, before)) is { } refused)
            return (refused, null);
        if (row is { IsFromConfiguration: true })
            return (RegisterSourceStore.FromConfiguration(name), null);
        var isNew = row is null;
        row = await RegisterSourceStore.WriteAsync(database, row, name, wanted, source, isFromConfiguration: false, clock, cancellationToken);
        var stored = before is null ? await database.StateOfAsync(row, cancellationToken) : before with { Source = row };
        return (new(stored.ToResponse(), row.Version, isNew ? $"/v1/register-sources/{Uri.EscapeDataString(name)}" : null, null), stored);
    }
}
