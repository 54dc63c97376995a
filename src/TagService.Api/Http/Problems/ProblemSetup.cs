using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace TagService.Api.Http.Problems;

/// <summary>Puts problem details behind everything that can go wrong.</summary>
public static class ProblemSetup
{
    public static IServiceCollection AddProblems(this IServiceCollection services) =>
        services
            .AddExceptionHandler<UnhandledExceptionHandler>()
            .AddProblemDetails()
            // Without it a parameter that does not read is a bare 400 that names nothing.
            .Configure<RouteHandlerOptions>(static o => o.ThrowOnBadRequest = true);

    /// <summary>First in the pipeline: what comes later is covered.</summary>
    public static void UseProblems(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions());
        app.UseStatusCodePages(static context =>
            StatusProblems.Of(context.HttpContext.Response.StatusCode, context.HttpContext).ExecuteAsync(context.HttpContext));
    }

    /// <summary>Documents problem answers of an endpoint; those that every endpoint can give need not be named.</summary>
    public static TBuilder WithProblems<TBuilder>(this TBuilder builder, params IReadOnlyList<ProblemType> types)
        where TBuilder : IEndpointConventionBuilder
    {
        foreach (var status in types.Append(ProblemTypes.InternalError).Select(t => t.Status).Distinct().Order())
            builder.WithMetadata(new ProducesResponseTypeMetadata(status, typeof(ProblemResponse), [ApiProblem.MediaType]));
        builder.WithMetadata(new ProblemsOfEndpoint([.. types, ProblemTypes.InternalError]));
        return builder;
    }

    /// <summary>The problems of an endpoint that takes one JSON record, besides its own.</summary>
    public static TBuilder WithJsonBodyProblems<TBuilder>(this TBuilder builder, params IReadOnlyList<ProblemType> others)
        where TBuilder : IEndpointConventionBuilder =>
        builder.WithProblems(
            [ProblemTypes.MalformedBody, ProblemTypes.InvalidFields, ProblemTypes.BodyTooLarge, ProblemTypes.UnsupportedMediaType, .. others]);
}

/// <summary>Endpoint metadata: the problem types it documents.</summary>
internal sealed record ProblemsOfEndpoint(IReadOnlyList<ProblemType> Types);
