using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;

namespace TagService.Api.Features.Health;

/// <summary>Probes for whoever runs the service.</summary>
public static class HealthEndpoints
{
    private const int RetryAfterSeconds = 5;

    /// <summary>Maps the area.</summary>
    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/health").WithTags(ApiTags.Operations);
        group.MapGet("/live", GetLiveness)
            .WithName("getLiveness")
            .WithSummary("Does the process run?")
            .WithDescription("200 as long as the process answers at all. Looks at nothing else, so that a database outage does not restart every replica.")
            .WithExamples(static () => new HealthResponse("alive"))
            .WithProblems();
        group.MapGet("/ready", GetReadiness)
            .WithName("getReadiness")
            .WithSummary("May the service get traffic?")
            .WithDescription("200 when the database answers and its migrations have run; else 503 with the reason.")
            .WithExamples(static () => new HealthResponse("ready", ["database"]))
            .WithProblems(ProblemTypes.NotReady);
    }

    private static Ok<HealthResponse> GetLiveness() => TypedResults.Ok(new HealthResponse("alive"));

    // Asks all checks at once.
    private static async Task<Results<Ok<HealthResponse>, ApiProblem>> GetReadiness(
        IEnumerable<IReadinessCheck> checks, HttpResponse response, CancellationToken cancellationToken)
    {
        response.Headers.CacheControl = "no-store";
        var all = checks.ToArray();
        var reasons = await Task.WhenAll(all.Select(c => c.WhyNotAsync(cancellationToken)));
        var failing = all.Zip(reasons).Where(c => c.Second is not null).Select(c => $"{c.First.Name}: {c.Second}").ToArray();
        return failing.Length == 0
            ? TypedResults.Ok(new HealthResponse("ready", [.. all.Select(c => c.Name)]))
            : new ApiProblem(ProblemTypes.NotReady, string.Join(" ", failing)) { RetryAfterSeconds = RetryAfterSeconds };
    }
}
